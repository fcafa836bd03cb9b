/** `darkweek workbench FOLDER`: the page, the folder's sites and what they name, for this machine alone. */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { Browser } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launch, openPage, there } from './browser.ts';

const CLI = resolve(import.meta.dirname, '../../../dist/cli.js');
const SITE = `site: { name: Hut by the folder, latitudeDeg: 45, longitudeDeg: 10, timeZone: '+01:00' }
period: { start: 2025-06-01, days: 7 }
load: [{ file: loads/week.csv, unit: kW, stamp: start, columns: { load kW: all } }]
inverter: { phases: 1, ratedKva: 3, chargerKw: 2 }
battery: { modules: 1, moduleKwh: 5, moduleChargeKw: 2, moduleDischargeKw: 3 }
generator: { ratedKw: 3, fuel: [{ kW: 0, lPerH: 0.5 }, { kW: 3, lPerH: 1.4 }] }
control: { charge: { startSoc: 0.3, stopSoc: 0.8 } }
money: { fuelPerL: 2 }
log: { file: logs/week.csv, stamp: end, columns: { Charge: { is: charge, unit: '%' } } }
`;

/** A week of half a kilowatt, hour by hour. */
function week(): string {
  const hours = Array.from({ length: 7 * 24 }, (_, hour) => {
    const day = String(1 + Math.floor(hour / 24)).padStart(2, '0');
    return `2025-06-${day} ${String(hour % 24).padStart(2, '0')}:00,0.5`;
  });
  return ['time,load kW', ...hours, ''].join('\n');
}

describe.skipIf(!there)('a folder that is served', () => {
  let server: ChildProcess;
  let address: string;
  let browser: Browser;

  beforeAll(async () => {
    const folder = mkdtempSync(join(tmpdir(), 'darkweek-served-'));
    writeFileSync(join(folder, 'hut.yaml'), SITE);
    for (const name of ['loads', 'logs']) mkdirSync(join(folder, name));
    writeFileSync(join(folder, 'loads/week.csv'), week());
    // of the same name, as logs are: it must not be taken for the load
    writeFileSync(join(folder, 'logs/week.csv'), 'time,Charge\n2025-06-01 00:00,50\n');
    writeFileSync(join(folder, 'secret.txt'), 'nobody asked for this');
    server = spawn('node', [CLI, 'workbench', folder, '--port', '0']);
    address = await new Promise((found) => {
      server.stdout?.on('data', (text) => {
        const match = /http:\S+/.exec(String(text));
        if (match) found(match[0]);
      });
    });
    browser = await launch();
  });
  afterAll(async () => {
    server?.kill();
    await browser?.close();
  });

  it('opens the first site of the folder with the files that it names', async () => {
    const context = await browser.newContext();
    const { page, complaints } = await openPage(context, address);
    expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe('Hut by the folder');
    // 84 kWh in a week: the generator must have run
    expect(await page.locator('tr[data-figure="fuelL"] td').first().textContent()).toMatch(/^[1-9]\d? L$/);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('gives only sites and what they name, and only to this machine', async () => {
    const status = async (path: string) => (await fetch(address + path)).status;
    expect(await status('text?site=hut.yaml')).toBe(200);
    expect(await status('named?site=hut.yaml&file=loads/week.csv')).toBe(200);
    // nothing that is simulated reads the log
    expect(await status('named?site=hut.yaml&file=logs/week.csv')).toBe(404);
    expect(await status('named?site=hut.yaml&file=secret.txt')).toBe(404);
    expect(await status('text?site=../hut.yaml')).toBe(404);
    expect(await status('secret.txt')).toBe(404);
    const foreign = await new Promise((answered) => {
      request(address, { headers: { host: 'elsewhere.example' } }, ({ statusCode }) =>
        answered(statusCode),
      ).end();
    });
    expect(foreign).toBe(403);
  });
});
