import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { issueSentence } from '../../src/scenarios/issue.ts';
import { readEpw } from '../../src/scenarios/read-epw.ts';
import { readTmy3 } from '../../src/scenarios/read-tmy3.ts';
import type { ReadResult } from '../../src/scenarios/series.ts';

const bytes = (text: string) => new TextEncoder().encode(text);
const sample = (name: string) => readFileSync(new URL(`./samples/${name}`, import.meta.url), 'utf8');

/** A year of invented hours: global, direct, diffuse, air, wind. */
const YEAR = Array.from({ length: 8760 }, (_, hour) => {
  const sun = Math.max(0, Math.round(700 - 20 * ((hour % 24) - 12) ** 2));
  return {
    sun,
    direct: Math.round(sun * 0.8),
    diffuse: Math.round(sun * 0.3),
    air: (hour % 24) / 2,
    wind: hour % 7,
  };
});

function tmy3(edit: (rows: string[]) => void = () => {}): string {
  const rows = YEAR.map((row, hour) => {
    const day = new Date(Date.UTC(2023, 0, 1 + Math.floor(hour / 24)));
    const date = `${String(day.getUTCMonth() + 1).padStart(2, '0')}/${String(day.getUTCDate()).padStart(2, '0')}/1988`;
    return `${date},${String((hour % 24) + 1).padStart(2, '0')}:00,${row.sun},${row.direct},${row.diffuse},${row.air},${row.wind}`;
  });
  edit(rows);
  const header = 'Date (MM/DD/YYYY),Time (HH:MM),GHI (W/m^2),DNI (W/m^2),DHI (W/m^2),Dry-bulb (C),Wspd (m/s)';
  return ['1,"DEMO",XX,-5.0,36.1,-79.95,273', header, ...rows, ''].join('\r\n');
}

function epw(edit: (rows: string[]) => void = () => {}): string {
  const head = sample('epw_tiny.epw').split(/\r?\n/).slice(0, 8);
  const rows = YEAR.map((row, hour) => {
    const day = new Date(Date.UTC(2023, 0, 1 + Math.floor(hour / 24)));
    const cells = new Array<string | number>(35).fill(0);
    cells.splice(0, 6, 1990, day.getUTCMonth() + 1, day.getUTCDate(), (hour % 24) + 1, 60, 'A');
    cells[6] = row.air;
    [cells[13], cells[14], cells[15], cells[21]] = [row.sun, row.direct, row.diffuse, row.wind];
    return cells.join(',');
  });
  edit(rows);
  return [...head, ...rows, ''].join('\n');
}

const total = (result: ReadResult, quantity: string) => {
  const series = result.series.find((one) => one.quantity === quantity);
  return series?.values.reduce((sum, value) => sum + value, 0);
};
const wanted = (key: 'sun' | 'direct' | 'diffuse' | 'air') => YEAR.reduce((sum, row) => sum + row[key], 0);

describe.each([
  ['TMY3', () => readTmy3(bytes(tmy3()), 'year.csv')],
  ['EPW', () => readEpw(bytes(epw()), 'year.epw')],
])('a year of %s', (_, read) => {
  it('keeps irradiation and mean temperature', () => {
    const result = read();
    expect(result.issues).toEqual([]);
    expect(total(result, 'ghiWPerM2')).toBeCloseTo(wanted('sun'), 6);
    expect(total(result, 'dniWPerM2')).toBeCloseTo(wanted('direct'), 6);
    expect(total(result, 'dhiWPerM2')).toBeCloseTo(wanted('diffuse'), 6);
    // the year's stamps lie round a circle, so that their means keep the sum
    expect(total(result, 'airC')).toBeCloseTo(wanted('air'), 6);
    expect(result.sheet?.axis.count).toBe(8760);
  });
});

describe('TMY3', () => {
  it('takes -9900 as missing, fills it and counts it', () => {
    const result = readTmy3(
      bytes(tmy3((rows) => rows.splice(100, 1, rows[100].replace(/,\d+,\d+,\d+,/, ',-9900,-9900,-9900,')))),
      'y.csv',
    );
    expect(result.issues).toEqual([]);
    expect(result.sheet?.filled).toBe(3);
    expect(result.sheet?.gaps[0].filledBy).toMatch(/straight line/);
  });

  it('drops 29 February', () => {
    const withLeapDay = tmy3((rows) =>
      rows.splice(
        59 * 24,
        0,
        ...Array.from({ length: 24 }, (_, h) => `02/29/1988,${String(h + 1).padStart(2, '0')}:00,9,9,9,9,9`),
      ),
    );
    expect(total(readTmy3(bytes(withLeapDay), 'y.csv'), 'ghiWPerM2')).toBeCloseTo(wanted('sun'), 6);
  });

  it('refuses a short year and a missing column, with lines', () => {
    const short = readTmy3(bytes(tmy3((rows) => rows.splice(8000))), 'y.csv');
    expect(short.series).toEqual([]);
    expect(short.issues.map(issueSentence)).toEqual([
      'y.csv:8003: rows: found 8000 hours; expected 8760, a year without 29 February',
    ]);
    const renamed = readTmy3(bytes(tmy3().replace('DNI (W/m^2)', 'Direct')), 'y.csv');
    expect(renamed.issues.map(issueSentence)).toEqual([
      "y.csv:2: dniWPerM2: found no such column; expected a column 'DNI (W/m^2)'",
    ]);
  });
});

describe('EPW', () => {
  it('reads the sample day, 8 932 Wh/m² of global irradiation, and says that it is not a year', () => {
    const result = readEpw(bytes(sample('epw_tiny.epw')), 'epw_tiny.epw');
    expect(result.issues.map(({ path, got }) => `${path} ${got}`)).toEqual(['rows 24 records']);
    const day = sample('epw_tiny.epw').split(/\r?\n/).slice(8, 32);
    const year = bytes(epw((rows) => rows.splice(0, 24, ...day)));
    const first = readEpw(year, 'y.epw').series.find((one) => one.quantity === 'ghiWPerM2');
    expect(first?.values.subarray(0, 24).reduce((sum, value) => sum + value, 0)).toBeCloseTo(8932, 9);
  });

  it('takes 9999 and 99.9 as missing', () => {
    const result = readEpw(
      bytes(
        epw((rows) => {
          const cells = rows[50].split(',');
          cells[6] = '99.9';
          cells[13] = '9999';
          rows[50] = cells.join(',');
        }),
      ),
      'y.epw',
    );
    expect(result.sheet?.filled).toBe(2);
  });
});
