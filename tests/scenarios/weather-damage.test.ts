import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readEpw } from '../../src/scenarios/read-epw.ts';
import { readPvgis } from '../../src/scenarios/read-pvgis.ts';
import { readTmy3 } from '../../src/scenarios/read-tmy3.ts';
import type { Quantity, ReadResult } from '../../src/scenarios/series.ts';
import { bytes, madeYear, PVGIS_PLACE, pvgisTypicalText, tmy3Text } from './made-weather.ts';
import { damaged } from './weather-damage.ts';

const sample = (name: string) => new Uint8Array(readFileSync(new URL(`./samples/${name}`, import.meta.url)));

/** A row as a spreadsheet would see it: the step that its stamp names, and its irradiance. */
interface PlainRow {
  step: number;
  values: Partial<Record<Quantity, number>>;
}

/** Rows of a damaged file by another, simpler way of reading; the values of a cell that is no number are left out. */
type PlainReader = (lines: string[], result: ReadResult) => PlainRow[];

const dayOf = (month: number, day: number) =>
  Math.round((Date.UTC(2023, month - 1, day) - Date.UTC(2023, 0, 1)) / 864e5);

const plainEpw: PlainReader = (lines, result) => {
  const [from] = lines[7]
    .split(',')[5]
    .split('/')
    .map(Number)
    .map((_, i, all) => (i === 0 ? dayOf(all[0], all[1]) : 0));
  const perHour = 60 / result.series[0].axis.stepMin;
  return lines.slice(8).flatMap((line) => {
    const cells = line.split(',').map((cell) => (cell.trim() === '' ? Number.NaN : Number(cell)));
    if (cells.length < 32 || (cells[1] === 2 && cells[2] === 29)) return [];
    const part = perHour === 1 ? 0 : (cells[4] * perHour) / 60 - 1;
    const step = ((dayOf(cells[1], cells[2]) - from) * 24 + cells[3] - 1) * perHour + part;
    return [{ step, values: { ghiWPerM2: cells[13], dniWPerM2: cells[14], dhiWPerM2: cells[15] } }];
  });
};

const plainTmy3: PlainReader = (lines) => {
  const header = lines[1].split(',');
  const at = (name: string) => header.indexOf(name);
  return lines.slice(2).flatMap((line) => {
    const cells = line.split(',');
    if (cells.length < 3 || cells[0].startsWith('02/29')) return [];
    const [month, day] = cells[at('Date (MM/DD/YYYY)')].split('/').map(Number);
    const hour = Number.parseInt(cells[at('Time (HH:MM)')], 10);
    const value = (name: string) => (cells[at(name)].trim() === '' ? Number.NaN : Number(cells[at(name)]));
    const values = {
      ghiWPerM2: value('GHI (W/m^2)'),
      dniWPerM2: value('DNI (W/m^2)'),
      dhiWPerM2: value('DHI (W/m^2)'),
    };
    return [{ step: dayOf(month, day) * 24 + hour - 1, values }];
  });
};

/** Year, month, day and hour of a PVGIS stamp. */
const stampOf = (line: string) =>
  [line.slice(0, 4), line.slice(4, 6), line.slice(6, 8), line.slice(9, 11)].map(Number);
const pvgisRows = (lines: string[]) => lines.filter((line) => /^\d{8}:\d{4},/.test(line));
const pvgisHeader = (lines: string[]) =>
  lines
    .find((line) => line.startsWith('time'))!
    .split(',')
    .map((name) => name.trim());

const plainHours: PlainReader = (lines, result) => {
  const header = pvgisHeader(lines);
  const parts = header.includes('G(i)') ? ['G(i)'] : ['Gb(i)', 'Gd(i)', 'Gr(i)'];
  const minute = Number(/minute (\d+)/.exec(result.sheet!.timeZone)![1]);
  return pvgisRows(lines).map((line) => {
    const [year, month, day, hour] = stampOf(line);
    const atS = Date.UTC(year, month - 1, day, hour) / 1000 + (minute - 30) * 60;
    const cells = line.split(',');
    const poaWPerM2 = parts.reduce((sum, name) => sum + Number(cells[header.indexOf(name)] || 'x'), 0);
    return { step: (atS - result.series[0].axis.startS) / 3600, values: { poaWPerM2 } };
  });
};

const plainTypical: PlainReader = (lines) => {
  const header = pvgisHeader(lines);
  return pvgisRows(lines).flatMap((line) => {
    const [, month, day, hour] = stampOf(line);
    const cells = line.split(',');
    const value = (name: string) => Number(cells[header.indexOf(name)] || 'x');
    if (month === 2 && day === 29) return [];
    const values = { ghiWPerM2: value('G(h)'), dniWPerM2: value('Gb(n)'), dhiWPerM2: value('Gd(h)') };
    return [{ step: dayOf(month, day) * 24 + hour, values }];
  });
};

/**
 * A reading must be a refusal with an error, or whole series in which every irradiance is that of a row with its
 * stamp, or is told as a filled gap; no row that was left intact is lost.
 */
function check(
  result: ReadResult,
  text: string,
  clean: Set<string>,
  plain: PlainReader,
  where: string,
): boolean {
  const errors = result.issues.filter(({ severity }) => severity === 'error');
  if (result.series.length === 0) {
    expect(errors.length, where).toBeGreaterThan(0);
    return false;
  }
  expect(errors, where).toEqual([]);
  const lines = text.split(/\r\n|\r|\n/);
  const rows = plain(lines, result);
  const intact = plain(
    lines.map((line, i) => (i < headLength(lines) || clean.has(line) ? line : '')),
    result,
  );
  const { axis, gaps } = { axis: result.series[0].axis, gaps: result.sheet!.gaps };
  const filled = new Set(
    gaps.flatMap(({ startS, steps }) =>
      Array.from({ length: steps }, (_, k) => (startS - axis.startS) / (axis.stepMin * 60) + k),
    ),
  );
  expect(result.sheet!.filled, where).toBe(gaps.reduce((sum, { steps }) => sum + steps, 0));
  for (const { quantity, values, name } of result.series) {
    expect(values.every(Number.isFinite), where).toBe(true);
    expect(values.length, where).toBe(axis.count);
    if (!quantity.endsWith('WPerM2')) continue;
    const given = new Map<number, Set<number>>();
    for (const row of rows)
      given.set(row.step, (given.get(row.step) ?? new Set()).add(row.values[quantity]!));
    for (const [step, value] of values.entries())
      if (!given.get(step)?.has(value) && !filled.has(step))
        expect.fail(`${where}: ${name} ${value} in step ${step}`);
    for (const row of intact)
      if (values[row.step] !== row.values[quantity])
        expect.fail(`${where}: ${name} of an intact row lost, step ${row.step}`);
    const sum = values.reduce((total, value) => total + value, 0) * (axis.stepMin / 60_000);
    const stated = result.sheet!.series.find((one) => one.quantity === quantity)!.total;
    expect(Math.abs(stated - sum), where).toBeLessThanOrEqual(1e-9 * Math.max(1, sum));
  }
  return true;
}

/** Lines before the first row. */
function headLength(lines: string[]): number {
  const first = lines.findIndex((line) => /^(\d{8}:\d{4},|\d\d\/\d\d\/\d{4},|\d{4},\d+,\d+,\d+,)/.test(line));
  return first < 0 ? lines.length : first;
}

const YEAR = madeYear();
describe.each<[string, Uint8Array, (file: Uint8Array) => ReadResult, PlainReader, number, number]>([
  [
    'epw_tiny.epw',
    sample('epw_tiny.epw'),
    (file) => readEpw(file, 'f', { period: 'declared' }),
    plainEpw,
    1000,
    100,
  ],
  [
    'pvgis_hourly_tiny.csv',
    sample('pvgis_hourly_tiny.csv'),
    (file) => readPvgis(file, 'f'),
    plainHours,
    1000,
    100,
  ],
  ['tmy3_tiny.csv', sample('tmy3_tiny.csv'), (file) => readTmy3(file, 'f'), plainTmy3, 1000, 0],
  ['a made year of TMY3', bytes(tmy3Text(YEAR)), (file) => readTmy3(file, 'f'), plainTmy3, 80, 10],
  [
    'a made typical year of PVGIS',
    bytes(pvgisTypicalText(madeYear(PVGIS_PLACE), 0.5)),
    (file) => readPvgis(file, 'f'),
    plainTypical,
    80,
    10,
  ],
])('damage to %s', (_, file, read, plain, times, least) => {
  it(`is refused or read right, ${times} times`, { timeout: 60_000 }, () => {
    const latin1 = new TextDecoder('latin1');
    const clean = new Set(latin1.decode(file).split(/\r?\n/));
    let refused = 0;
    for (const { kind, file: broken } of damaged(file, times, 7)) {
      const where = `${kind}, seed 7`;
      if (!check(read(broken), new TextDecoder().decode(broken), clean, plain, where)) refused++;
    }
    expect(refused).toBeGreaterThan(times / 4);
    expect(times - refused).toBeGreaterThanOrEqual(least);
  });
});

describe('200 MB', () => {
  const heads = [
    'LOCATION,A,B,C,D,0,36.1,-79.9,-5,273,',
    '1,"A",X,-5.0,36.1,-79.9,273\nDate (MM/DD/YYYY),',
    'Latitude (decimal degrees):\t1\ntime,',
  ];
  it.each([
    ['of letters', 65],
    ['of commas', 44],
    ['of line ends', 10],
    ['of old line ends', 13],
    ['of zeros', 0],
  ])('%s are refused by every reader', { timeout: 60_000 }, (_, byte) => {
    const file = new Uint8Array(200_000_000).fill(byte);
    for (const [i, read] of [readEpw, readTmy3, readPvgis].entries()) {
      file.set(bytes(heads[i]));
      const result = read(file, 'big');
      expect(result.series).toEqual([]);
      expect(result.issues.some(({ severity }) => severity === 'error')).toBe(true);
    }
  });
});
