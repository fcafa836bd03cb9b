import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type EpwOptions, looksLikeEpw, readEpw } from '../../src/scenarios/read-epw.ts';
import { bytes, cell, epwText, madeYear, PLACE, sentences, sumOf, total, values } from './made-weather.ts';

const YEAR = madeYear();
const read = (text: string, options?: EpwOptions) => readEpw(bytes(text), 'y.epw', options);
const edited = (edit: (rows: string[]) => void) => read(epwText(YEAR, 1, 1, edit));

describe('the sample day', () => {
  const sample = readFileSync(new URL('./samples/epw_tiny.epw', import.meta.url));

  // total stated beside the hand-made sample
  it('has 8 932 Wh/m² of global irradiation over its 24 rows', () => {
    const result = readEpw(sample, 'e.epw', { period: 'declared' });
    expect(result.issues).toEqual([]);
    expect(total(result, 'ghiWPerM2')).toBe(8932);
    expect(result.sheet?.series[0].total).toBeCloseTo(8.932, 12);
    expect(result.series[0].axis).toEqual({
      startS: Date.UTC(2022, 11, 31, 14) / 1000,
      stepMin: 60,
      count: 24,
    });
  });

  it('is recognised, and refused where a year is asked for', () => {
    expect(looksLikeEpw(sample)).toBe('first line begins with LOCATION');
    expect(sentences(readEpw(sample, 'e.epw'))).toEqual([
      'e.epw:32: rows: found 24 records; expected 8760, a year without 29 February; the longest hole, 8736 h, begins with 2 January 01:00',
    ]);
  });
});

describe('a year of EPW', () => {
  const result = read(epwText(YEAR));

  it('keeps irradiation to 1e-9 and has nothing to doubt', () => {
    expect(result.issues).toEqual([]);
    expect(Math.abs(total(result, 'ghiWPerM2') / sumOf(YEAR, 'global') - 1)).toBeLessThan(1e-9);
    expect(Math.abs(total(result, 'dniWPerM2') / sumOf(YEAR, 'direct') - 1)).toBeLessThan(1e-9);
    expect(Math.abs(total(result, 'dhiWPerM2') / sumOf(YEAR, 'diffuse') - 1)).toBeLessThan(1e-9);
    expect(total(result, 'airC')).toBeCloseTo(sumOf(YEAR, 'air'), 6);
    expect(total(result, 'windMPerS')).toBeCloseTo(sumOf(YEAR, 'wind'), 6);
  });

  // data dictionary: hour 1 is 00:00 to 01:00 of standard time, whatever the minute says
  it('lays hour 1 on the hour after midnight, with minute 0 or 60', () => {
    expect(result.series[0].axis).toEqual({
      startS: Date.UTC(2023, 0, 1, 5) / 1000,
      stepMin: 60,
      count: 8760,
    });
    expect(values(result, 'ghiWPerM2')[4000]).toBe(YEAR[4000].global);
    const sixty = edited((rows) => {
      for (const i of rows.keys()) cell(i, 4, '60')(rows);
    });
    expect(sixty.issues).toEqual([]);
    expect(sixty.series).toEqual(result.series);
  });

  it('goes through another reading of its own rows unchanged', () => {
    const again = edited((rows) => {
      for (const [i, row] of rows.entries()) rows[i] = row.replaceAll(',', ', ');
    });
    expect(again.series).toEqual(result.series);
  });
});

describe('four records an hour', () => {
  const quarters = madeYear(PLACE, 15);

  it.each<[string, number, RegExp]>([
    ['mean W/m²', 1, /irradiance in mean W\/m²/],
    ['Wh/m² of 15 minutes', 0.25, /irradiance in Wh\/m² of each 15 minutes/],
  ])('in %s keep their step and their energy; the unit is a doubt', (_, scale, reading) => {
    const result = read(epwText(quarters, 4, scale));
    expect(result.issues.map(({ code }) => code)).toEqual(['unit']);
    expect(result.sheet?.timeZone).toMatch(reading);
    expect(result.series[0].axis).toMatchObject({ stepMin: 15, count: 35_040 });
    expect(Math.abs(total(result, 'ghiWPerM2') / sumOf(quarters, 'global') - 1)).toBeLessThan(1e-9);
    expect(values(result, 'airC')[900]).toBeCloseTo((quarters[899].air + quarters[900].air) / 2, 12);
  });

  it('must name the quarter that they end', () => {
    const text = epwText(quarters, 4, 1, cell(50, 4, '0'));
    expect(sentences(read(text)).slice(0, 1)).toEqual([
      "y.epw:59:5: minute: found '0'; expected a multiple of 15, 15 to 60",
    ]);
  });
});

describe('what is wrong with an EPW file', () => {
  const oneLost = (line: number, stamp: string) =>
    `y.epw:${line}: rows: found 8759 records; expected 8760, a year without 29 February; the longest hole, 1 h, begins with ${stamp}; filled as the data sheet says`;
  it.each<[string, (rows: string[]) => void, string[]]>([
    [
      'text for a number',
      cell(50, 13, '1O0'),
      [
        "y.epw:59:14: global horizontal: found '1O0'; expected a number, or the sign of the format for a missing value",
      ],
    ],
    [
      'no month',
      cell(50, 1, '13'),
      ['y.epw:59:2: month and day: found 13/3; expected a day of the year', oneLost(58, '3 January 03:00')],
    ],
    [
      'hour 0',
      cell(72, 3, '0'),
      ["y.epw:81:4: hour: found '0'; expected 1 to 24", oneLost(80, '4 January 01:00')],
    ],
    [
      'no year',
      cell(72, 0, 'x'),
      ["y.epw:81:1: year: found 'x'; expected a year", oneLost(80, '4 January 01:00')],
    ],
    [
      'a short row',
      (rows) => {
        rows[50] = rows[50].split(',').slice(0, 20).join(',');
      },
      ['y.epw:59: row: found 20 cells; expected 35, as in the first row', oneLost(58, '3 January 03:00')],
    ],
    [
      'a row of another day again',
      cell(50, 2, '4'),
      [
        'y.epw:83: rows: found another row for 4 January 03:00, which differs from line 59; expected one row for each stamp',
        'y.epw:60: rows: found 1 row out of turn, the first here; expected rows in order of time',
        oneLost(58, '3 January 03:00'),
      ],
    ],
  ])('%s', (_, edit, expected) => {
    const result = edited(edit);
    expect(result.series).toEqual([]);
    expect(sentences(result)).toEqual(expected);
  });

  it.each<[string, (text: string) => string, string[]]>([
    [
      'no LOCATION',
      (text) => text.replace('LOCATION', 'PLACE'),
      [
        "y.epw:1: LOCATION: found 'PLACE,DEMO SITE,XX,XXX,INVENTED,000000,…'; expected a line that begins with LOCATION",
      ],
    ],
    [
      'a line of the head lost',
      (text) => text.replace('COMMENTS 2,\n', ''),
      [
        "y.epw:7: COMMENTS 2: found 'DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31'; expected a line that begins with COMMENTS 2",
        "y.epw:8: DATA PERIODS: found '1981,1,1,1,0,A,10,0,0,0,0,0,0,0,0,0,0,0…'; expected a line that begins with DATA PERIODS",
      ],
    ],
    [
      'a short LOCATION',
      (text) => text.replace(',-5.0,273', ''),
      [
        "y.epw:1: LOCATION: found 'LOCATION,DEMO SITE,XX,XXX,INVENTED,0000…'; expected LOCATION, five names and numbers, latitude, longitude, UTC offset, elevation",
      ],
    ],
    [
      'no offset',
      (text) => text.replace(',-5.0,273', ',,273'),
      ["y.epw:1:9: offset from UTC: found ''; expected -12 to 14 h, in whole minutes"],
    ],
    [
      'two periods',
      (text) => text.replace('DATA PERIODS,1,', 'DATA PERIODS,2,'),
      ["y.epw:8:2: DATA PERIODS: found '2'; expected one data period"],
    ],
    [
      'seven records an hour and no days',
      (text) => text.replace('PERIODS,1,1,', 'PERIODS,1,7,').replace(' 1/ 1,12/31', ' 1/ 1,13/31'),
      [
        "y.epw:8:3: DATA PERIODS: found '7'; expected records an hour that divide 60",
        "y.epw:8:6: DATA PERIODS: found ' 1/ 1' to '13/31'; expected first and last day within a year, month/day",
      ],
    ],
  ])('%s in its head', (_, change, expected) => {
    const result = read(change(epwText(YEAR)));
    expect(result.series).toEqual([]);
    expect(sentences(result)).toEqual(expected);
  });

  it('rows outside the days that it declares', () => {
    const text = epwText(YEAR.slice(0, 48)).replace('12/31', ' 1/ 1');
    const result = read(text, { period: 'declared' });
    expect(result.issues).toHaveLength(24);
    expect(sentences(result)[0]).toBe(
      'y.epw:33:2: month and day: found 1/2; expected a day of the data period',
    );
  });
});

describe('what is doubtful in an EPW file', () => {
  it.each<[string, (rows: string[]) => void, string[], number]>([
    [
      '9999 and 99.9 and 999, missing',
      (rows) => {
        cell(50, 13, '9999')(rows);
        cell(51, 13, '9999')(rows);
        cell(50, 6, '99.9')(rows);
        cell(50, 21, '999')(rows);
      },
      [
        'y.epw:59:14: global horizontal: found 2 missing values, the first here; expected values; filled where the hole is short enough',
        'y.epw:59:7: dry bulb: found 1 missing value, the first here; expected values; filled where the hole is short enough',
        'y.epw:59:22: wind speed: found 1 missing value, the first here; expected values; filled where the hole is short enough',
      ],
      4,
    ],
    [
      'negative irradiance',
      cell(50, 15, '-0.5'),
      [
        "y.epw:59:16: diffuse horizontal: found '-0.5'; expected 0 to 1414 W/m², the sun outside the air; taken as missing",
      ],
      1,
    ],
    [
      'a 29 February',
      (rows) => {
        rows.splice(59 * 24, 0, ...rows.slice(0, 24).map((row) => row.replace(',1,1,', ',2,29,')));
      },
      [
        'y.epw:1425: rows: found 24 rows of 29 February, the first here; expected a year of 365 days; they are left out',
      ],
      0,
    ],
  ])('%s', (_, edit, expected, filled) => {
    const result = edited(edit);
    expect(sentences(result)).toEqual(expected);
    expect(result.sheet?.filled).toBe(filled);
    expect(total(result, 'ghiWPerM2')).toBe(sumOf(YEAR, 'global'));
  });

  it('columns swapped', () => {
    const swapped = edited((rows) => {
      for (const [i, row] of rows.entries()) {
        const cells = row.split(',');
        [cells[13], cells[14]] = [cells[14], cells[13]];
        rows[i] = cells.join(',');
      }
    });
    // a beam where the global should be: in dull hours there is none of it, and yet diffuse light
    expect(swapped.issues.map(({ code }) => code)).toEqual(['diffuse-above-global']);
  });
});
