/**
 * The spreadsheet, recalculated by LibreOffice: its formulas give the engine's money to a cent, also at another fuel
 * price. Without LibreOffice (Debian: apt-get install libreoffice-calc) that part is skipped, and says so.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { inputsSheet } from '../../src/report/spreadsheet/inputs-sheet.ts';
import { workbook } from '../../src/report/spreadsheet/workbook.ts';
import { withoutTimes } from '../../src/report/spreadsheet/zip-times.ts';
import type { Alternative } from '../../src/scenarios/alternatives.ts';
import { moneyAtFuelPrice } from '../../src/scenarios/what-if.ts';
import { findOffice } from './find-office.ts';
import { type DemoSite, handover } from './handover.ts';

const office = findOffice();
if (office === null)
  console.warn(
    'SKIPPED: no LibreOffice, so the spreadsheet was not recalculated (apt-get install libreoffice-calc)',
  );

const folder = mkdtempSync(join(tmpdir(), 'darkweek-office-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Every sheet's cells as LibreOffice works them out, by the sheet's name. */
function recalculated(name: string, file: Uint8Array): Map<string, string[][]> {
  writeFileSync(join(folder, `${name}.xlsx`), file);
  // comma, quotes, UTF-8, from row 1, no column formats, language, quote text, no date guess, values not as shown, ..., all sheets
  const csv = 'csv:Text - txt - csv (StarCalc):44,34,76,1,,0,true,false,false,false,false,-1';
  const profile = `-env:UserInstallation=file://${join(folder, 'profile')}`;
  const args = [profile, '--headless', '--convert-to', csv, '--outdir', folder, join(folder, `${name}.xlsx`)];
  const { stderr } = spawnSync(office!, args, { encoding: 'utf8', timeout: 120_000 });
  const files = readdirSync(folder).filter((each) => each.startsWith(`${name}-`));
  if (files.length === 0) throw new Error(`LibreOffice gave nothing: ${stderr}`);
  return new Map(
    files.map((each) => [each.slice(name.length + 1, -4), rowsOf(readFileSync(join(folder, each), 'utf8'))]),
  );
}

function rowsOf(csv: string): string[][] {
  return csv
    .split('\n')
    .map((line) =>
      [...line.matchAll(/("(?:[^"]|"")*"|[^,]*)(?:,|$)/g)].map(([, cell]) =>
        cell.replace(/^"|"$/g, '').replaceAll('""', '"'),
      ),
    );
}

/** The rows of the money sheet that hold the sums of the alternatives, in their order. */
const sumsOf = (sheets: Map<string, string[][]>) =>
  sheets
    .get('Money')!
    .filter(([first]) => first === 'Sum')
    .map((cells) => cells.slice(1).map(Number));

describe.skipIf(office === null).each(['farm', 'hut', 'workshop'] as DemoSite[])(
  'recalculated, the %s',
  (name) => {
    const { study, alternatives } = handover(name);
    const atPrice = (times: number): Alternative[] =>
      alternatives.map((each) => ({
        ...each,
        site: { ...each.site, money: { ...each.site.money, fuelPerL: each.site.money.fuelPerL * times } },
      }));
    let sheets: Map<string, string[][]>;
    let doubled: Map<string, string[][]>;

    beforeAll(async () => {
      sheets = recalculated(name, await workbook(study, alternatives));
      doubled = recalculated(`${name}2`, await workbook(study, atPrice(2)));
    }, 240_000);

    it('has no error in any cell', () => {
      for (const [, rows] of sheets) expect(rows.flat().filter((cell) => /^(#|Err:)/.test(cell))).toEqual([]);
    });

    it('gives life-cycle costs of every choice to a cent', () => {
      const sums = sumsOf(sheets);
      expect(sums.length).toBe(study.alternatives.length);
      for (const [i, { money }] of study.alternatives.entries())
        expect(Math.abs(sums[i][9] - money.lifeCycleCost)).toBeLessThan(0.005);
    });

    it('gives every year of every choice to a cent', () => {
      const rows = sheets.get('Money')!.filter(([first]) => /^\d+$/.test(first));
      const years = study.alternatives.flatMap(({ money }) => money.cashFlow);
      expect(rows.length).toBe(years.length);
      for (const [i, year] of years.entries()) {
        const { capital, fuel, service, unserved, visits, overhaul, battery, residual, total, presentValue } =
          year;
        for (const [column, value] of [
          capital,
          fuel,
          service,
          unserved,
          visits,
          overhaul,
          battery,
          residual,
          total,
          presentValue,
        ].entries())
          expect(Math.abs(Number(rows[i][column + 1]) - value)).toBeLessThan(0.005);
      }
    });

    it('gives the comparison: running cost, life-cycle cost, cost of a kWh', () => {
      const row = (label: RegExp) =>
        sheets
          .get('Comparison')!
          .find(([first]) => label.test(first))!
          .slice(2)
          .map(Number);
      for (const [i, { money }] of study.alternatives.entries()) {
        expect(row(/^Capital/)[i]).toBeCloseTo(money.capital, 2);
        expect(row(/^Running cost/)[i]).toBeCloseTo(money.runningFirstYear, 2);
        expect(row(/^Life-cycle cost/)[i]).toBeCloseTo(money.lifeCycleCost, 2);
        expect(row(/^Levelised/)[i]).toBeCloseTo(money.levelisedCostPerKwh!, 6);
      }
    });

    it('follows a doubled fuel price to a cent', () => {
      const sums = sumsOf(doubled);
      for (const [i, result] of study.alternatives.entries()) {
        const { lifeCycleCost } = moneyAtFuelPrice(alternatives[i], result, 2);
        expect(Math.abs(sums[i][9] - lifeCycleCost)).toBeLessThan(0.005);
      }
    });

    it('has months that add up to the year', () => {
      const sums = sheets.get('Months')!.filter(([first]) => first.endsWith(': sum'));
      expect(sums.length).toBe(study.alternatives.length);
      for (const [i, { ledger, money }] of study.alternatives.entries()) {
        const { loadKwh, dcUsedKwh, acUsedKwh, generatorKwh, unservedKwh, fuelL, runH, starts, visits } =
          ledger.totals;
        const year = [
          loadKwh,
          dcUsedKwh + acUsedKwh,
          generatorKwh,
          unservedKwh,
          fuelL,
          runH,
          starts,
          visits,
          money.runningFirstYear,
        ];
        for (const [column, value] of year.entries())
          expect(Number(sums[i][column + 3])).toBeCloseTo(value, 4);
      }
    });

    it('lists every generator run', () => {
      const rows = sheets
        .get('Runs')!
        .slice(3)
        .filter((cells) => cells.length > 3);
      const runs = study.alternatives.flatMap(({ ledger }) => ledger.runs);
      expect(rows.length).toBe(runs.length);
      expect(rows.reduce((sum, cells) => sum + Number(cells[9]), 0)).toBeCloseTo(
        runs.reduce((sum, { litres }) => sum + litres, 0),
        4,
      );
    });
  },
);

describe('the spreadsheet', () => {
  it('takes the prices of all choices from the first: one cell to change', () => {
    const { study, alternatives } = handover('farm');
    const row = inputsSheet(study, alternatives).data.find((cells) =>
      JSON.stringify(cells[0] ?? '').includes('Fuel price'),
    )!;
    expect(row[1]).toMatchObject({ value: 1.6 });
    for (const cell of row.slice(2)) expect(cell).toMatchObject({ type: 'Formula', value: '$B$6' });
  });

  it('has the same bytes whenever it is written', async () => {
    const { study, alternatives } = handover('hut');
    const first = await workbook(study, alternatives);
    // a zip file's times have steps of two seconds
    await new Promise((done) => setTimeout(done, 2100));
    expect(Buffer.compare(Buffer.from(first), Buffer.from(await workbook(study, alternatives)))).toBe(0);
  });

  it('refuses to take times out of what is no zip file', () => {
    expect(() => withoutTimes(new Uint8Array(100))).toThrow(/no zip/);
  });
});
