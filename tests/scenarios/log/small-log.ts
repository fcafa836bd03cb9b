/** A plain log of five days in quarters of an hour, for defects that are put into it one at a time. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { readLog } from '../../../src/scenarios/log/read-log.ts';
import { Filed } from '../../../src/scenarios/many/ground.ts';
import { siteSchema } from '../../../src/scenarios/site-schema.ts';

const FARM = resolve(import.meta.dirname, '../../../profiles/sites/farm.yaml');
export const FARM_SITE = new Filed(readFileSync(FARM, 'utf8'), FARM).site;

export const PLAIN_LOG = {
  file: 'farm.csv',
  stamp: 'end',
  columns: {
    'Charge %': { is: 'charge', unit: '%' },
    'Load kW': { is: 'load', unit: 'kW' },
    'Battery kW': { is: 'battery power', unit: 'kW', positive: 'charging' },
    'Set kW': { is: 'generator power', unit: 'kW' },
    'Cabinet C': { is: 'cabinet temperature', unit: 'C' },
  } as Record<string, object>,
};

/** Load and battery of step i: the charge rises and falls with the battery once a day. */
export const LOAD_KW = (i: number) => 1 + 0.25 * (i % 8);
export const BATTERY_KW = (i: number) => Number((4 * Math.sin((2 * Math.PI * i) / 96)).toFixed(2));
export const CHARGE = (i: number) => Math.round(50 + 25 * (1 - Math.cos((2 * Math.PI * i) / 96)));
const SET_KW = (i: number) => (i % 96 < 4 ? 12 + (i % 4) : 0);
const CABINET_C = (i: number) => 15 + (i % 7) / 10;

/** Stamp of the end of step i, 1 March 2025 by the clock of the site. */
export function stampAt(i: number, stepMin = 15, day = Date.UTC(2025, 2, 1)): string {
  return new Date(day + (i + 1) * stepMin * 60_000).toISOString().slice(0, 16).replace('T', ' ');
}

/** Lines of the log, the header first: line i + 2 of the file is step i. */
export function plainLines(steps = 480): string[] {
  const rows = Array.from({ length: steps }, (_, i) =>
    [stampAt(i), CHARGE(i), LOAD_KW(i), BATTERY_KW(i), SET_KW(i), CABINET_C(i)].join(','),
  );
  return ['time,Charge %,Load kW,Battery kW,Set kW,Cabinet C', ...rows];
}

/** Reads lines as the farm's log. */
export function readLines(lines: readonly string[], log: object = PLAIN_LOG, site = FARM_SITE) {
  return readBytes(new TextEncoder().encode(`${lines.join('\n')}\n`), log, site);
}

export function readBytes(bytes: Uint8Array, log: object = PLAIN_LOG, site = FARM_SITE) {
  return readLog(
    { ...site, log: siteSchema.shape.log.parse(log) },
    () => bytes,
    (path) => ({ file: `site.yaml ${path.join('.')}` }),
  );
}
