import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { looksLikeTmy3, readTmy3 } from '../../src/scenarios/read-tmy3.ts';
import { bytes, cell, madeYear, sentences, sumOf, tmy3Text, total, values } from './made-weather.ts';

const YEAR = madeYear();
const read = (text: string) => readTmy3(bytes(text), 'y.csv');
const edited = (edit: (rows: string[]) => void) => read(tmy3Text(YEAR, edit));

describe('a year of TMY3', () => {
  const result = read(tmy3Text(YEAR));

  it('keeps irradiation to 1e-9 and has nothing to doubt', () => {
    expect(result.issues).toEqual([]);
    expect(Math.abs(total(result, 'ghiWPerM2') / sumOf(YEAR, 'global') - 1)).toBeLessThan(1e-9);
    expect(Math.abs(total(result, 'dniWPerM2') / sumOf(YEAR, 'direct') - 1)).toBeLessThan(1e-9);
    expect(Math.abs(total(result, 'dhiWPerM2') / sumOf(YEAR, 'diffuse') - 1)).toBeLessThan(1e-9);
    expect(result.sheet?.series[0].total).toBeCloseTo(sumOf(YEAR, 'global') / 1000, 9);
  });

  // Wilcox and Marion, NREL/TP-581-43156, 2008: the stamp is the end of the hour, standard time
  it('begins at midnight of standard time; the first row is the first hour', () => {
    const { startS, stepMin, count } = result.series[0].axis;
    expect([startS, stepMin, count]).toEqual([Date.UTC(2023, 0, 1, 5) / 1000, 60, 8760]);
    const noon = 180 * 24 + 12;
    expect(values(result, 'ghiWPerM2')[noon]).toBe(YEAR[noon].global);
    expect(result.location).toEqual({ latDeg: 36.1, lonDeg: -79.95, utcOffsetH: -5, elevationM: 273 });
  });

  it('takes the mean temperature of an hour from the stamps at its ends, round the year', () => {
    const air = values(result, 'airC');
    expect(air[500]).toBeCloseTo((YEAR[499].air + YEAR[500].air) / 2, 12);
    expect(air[0]).toBeCloseTo((YEAR[8759].air + YEAR[0].air) / 2, 12);
    expect(total(result, 'airC')).toBeCloseTo(sumOf(YEAR, 'air'), 6);
  });

  it('says how times were read', () => {
    expect(result.sheet?.timeZone).toBe(
      'local standard time UTC-5; the stamp is the end of the hour; air and wind are the mean of the stamps at its two ends; years 1981 to 1992 laid on any calendar year, shown on 2023',
    );
  });
});

describe('columns of TMY3', () => {
  it('are found by name, wherever they stand and however many there are', () => {
    const swapped = tmy3Text(YEAR)
      .split('\r\n')
      .map((line, i) => {
        if (i === 0 || line === '') return line;
        const cells = line.split(',');
        return [...cells.slice(0, 2), 'more', ...cells.slice(2).reverse(), 'last'].join(',');
      });
    const result = read(swapped.join('\r\n'));
    expect(result.issues).toEqual([]);
    expect(total(result, 'ghiWPerM2')).toBe(sumOf(YEAR, 'global'));
  });

  it('are refused where one is missing or named twice', () => {
    expect(sentences(read(tmy3Text(YEAR).replace('DNI (W/m^2)', 'Direct')))).toEqual([
      "y.csv:2: DNI (W/m^2): found no such column; expected a column 'DNI (W/m^2)'",
    ]);
    expect(sentences(read(tmy3Text(YEAR).replace('DNI (W', 'GHI (W')))).toEqual([
      "y.csv:2: GHI (W/m^2): found 2 such columns; expected a column 'GHI (W/m^2)'",
      "y.csv:2: DNI (W/m^2): found no such column; expected a column 'DNI (W/m^2)'",
    ]);
  });
});

describe('what is wrong with a TMY3 file', () => {
  it.each<[string, (rows: string[]) => void, string[]]>([
    [
      'text for a number',
      cell(100, 3, 'abc'),
      [
        "y.csv:103:4: DNI (W/m^2): found 'abc'; expected a number, or the sign of the format for a missing value",
      ],
    ],
    [
      'a day that does not exist',
      cell(100, 0, '02/30/1988'),
      [
        "y.csv:103:1: Date (MM/DD/YYYY): found '02/30/1988'; expected a day, MM/DD/YYYY",
        'y.csv:102: rows: found 8759 hours; expected 8760, a year without 29 February; the longest hole, 1 h, begins with 5 January 05:00; filled as the data sheet says',
      ],
    ],
    [
      'hours from 00:00',
      cell(120, 1, '00:00'),
      [
        "y.csv:123:2: Time (HH:MM): found '00:00'; expected 01:00 to 24:00",
        'y.csv:122: rows: found 8759 hours; expected 8760, a year without 29 February; the longest hole, 1 h, begins with 6 January 01:00; filled as the data sheet says',
      ],
    ],
    [
      'a row of another width',
      (rows) => {
        rows[100] += ',1';
      },
      [
        'y.csv:103: row: found 8 cells; expected 7, as in the header',
        'y.csv:102: rows: found 8759 hours; expected 8760, a year without 29 February; the longest hole, 1 h, begins with 5 January 05:00; filled as the data sheet says',
      ],
    ],
    [
      'the end cut off',
      (rows) => {
        rows.splice(8000);
      },
      [
        'y.csv:8002: rows: found 8000 hours; expected 8760, a year without 29 February; the longest hole, 760 h, begins with 30 November 09:00',
      ],
    ],
    [
      'two different rows for a stamp',
      (rows) => {
        rows.splice(13, 0, rows[12].replace(/,\d+,/, ',1,'));
      },
      [
        'y.csv:16: rows: found another row for 1 January 13:00, which differs from line 15; expected one row for each stamp',
      ],
    ],
  ])('%s', (_, edit, expected) => {
    const result = edited(edit);
    expect(result.series).toEqual([]);
    expect(sentences(result)).toEqual(expected);
  });

  it('every problem at once, in the station line too', () => {
    const text = tmy3Text(YEAR, cell(100, 3, 'abc')).replace('-5.0,36.1,-79.95,273', '-15.0,96.1,x,273');
    expect(sentences(read(text))).toEqual([
      "y.csv:1:6: latitude: found '96.1'; expected -90 to 90 °, north positive",
      "y.csv:1:7: longitude: found 'x'; expected -180 to 180 °, east positive",
      "y.csv:1:5: offset from UTC: found '-15.0'; expected -12 to 14 h, in whole minutes",
    ]);
    expect(sentences(read('a,b\n'))).toEqual([
      "y.csv:1: station: found 'a,b'; expected code, name, state, UTC offset, latitude, longitude, elevation",
      "y.csv:2: Date (MM/DD/YYYY): found no such column; expected a column 'Date (MM/DD/YYYY)'",
      "y.csv:2: Time (HH:MM): found no such column; expected a column 'Time (HH:MM)'",
      "y.csv:2: GHI (W/m^2): found no such column; expected a column 'GHI (W/m^2)'",
      "y.csv:2: DNI (W/m^2): found no such column; expected a column 'DNI (W/m^2)'",
      "y.csv:2: DHI (W/m^2): found no such column; expected a column 'DHI (W/m^2)'",
      "y.csv:2: Dry-bulb (C): found no such column; expected a column 'Dry-bulb (C)'",
      "y.csv:2: Wspd (m/s): found no such column; expected a column 'Wspd (m/s)'",
    ]);
  });

  it('lists a hundred errors and stops', () => {
    const result = edited((rows) => {
      for (let i = 0; i < 500; i++) cell(i, 3, '#')(rows);
    });
    expect(result.series).toEqual([]);
    expect(result.issues.filter(({ severity }) => severity === 'error')).toHaveLength(100);
    expect(result.issues[100]).toMatchObject({ code: 'more', got: '100 errors' });
  });
});

describe('what is doubtful in a TMY3 file', () => {
  it.each<[string, (rows: string[]) => void, string[], number]>([
    [
      '-9900, missing',
      cell(100, 5, '-9900'),
      [
        'y.csv:103:6: Dry-bulb (C): found 1 missing value, the first here; expected values; filled where the hole is short enough',
      ],
      1,
    ],
    [
      'an empty cell',
      cell(100, 5, ''),
      [
        'y.csv:103:6: Dry-bulb (C): found 1 missing value, the first here; expected values; filled where the hole is short enough',
      ],
      1,
    ],
    [
      'negative irradiance',
      cell(12, 2, '-3'),
      [
        "y.csv:15:3: GHI (W/m^2): found '-3'; expected 0 to 1413 W/m², the sun outside the air; taken as missing",
      ],
      1,
    ],
    [
      '99.9 degrees',
      cell(12, 5, '99.9'),
      ["y.csv:15:6: Dry-bulb (C): found '99.9'; expected -70 to 70 °C; taken as missing"],
      1,
    ],
    [
      'a direct beam above that outside the air',
      cell(4380, 3, '1380'),
      [
        "y.csv:4383:4: DNI (W/m^2): found '1380'; expected 0 to 1320 W/m², the sun outside the air; taken as missing",
      ],
      1,
    ],
    [
      'a row lost',
      (rows) => {
        rows.splice(30, 1);
      },
      [
        'y.csv:32: rows: found 8759 hours; expected 8760, a year without 29 February; the longest hole, 1 h, begins with 2 January 07:00; filled as the data sheet says',
      ],
      5,
    ],
    [
      'the same row twice',
      (rows) => {
        rows.splice(30, 0, rows[29]);
      },
      ['y.csv:33: rows: found 1 row already there, the first here; expected each row once'],
      0,
    ],
    [
      'rows in another order',
      (rows) => {
        [rows[30], rows[31]] = [rows[31], rows[30]];
      },
      ['y.csv:34: rows: found 1 row out of turn, the first here; expected rows in order of time'],
      0,
    ],
    [
      'a 29 February',
      (rows) => {
        rows.splice(59 * 24, 0, ...rows.slice(0, 24).map((row) => row.replace(/^\d\d.\d\d/, '02/29')));
      },
      [
        'y.csv:1419: rows: found 24 rows of 29 February, the first here; expected a year of 365 days; they are left out',
      ],
      0,
    ],
  ])('%s', (_, edit, expected, filled) => {
    const result = edited(edit);
    expect(sentences(result)).toEqual(expected);
    expect(result.issues.every(({ severity }) => severity === 'doubt')).toBe(true);
    expect(result.sheet?.filled).toBe(filled);
    // only what was filled may differ from the clean year: a night, or a value between its neighbours
    expect(Math.abs(total(result, 'ghiWPerM2') - sumOf(YEAR, 'global'))).toBeLessThan(
      filled === 0 ? 1e-9 : 300,
    );
  });

  it('light at night and parts that do not fit', () => {
    const west = read(tmy3Text(YEAR).replace(',-79.95,', ',79.95,'));
    expect(west.issues.map(({ code }) => code)).toEqual(['night-sun', 'parts']);
    // the last hour of the second day: 48 hours after two lines of heading
    expect(sentences(edited(cell(47, 2, '300')))[0]).toMatch(
      /^y\.csv:50: irradiance: found 1 row with irradiance while the sun is down, the first here;/,
    );
    const swapped = edited((rows) => {
      for (const [i, row] of rows.entries()) rows[i] = row.replace(/,(\d+),(\d+),(\d+),/, ',$3,$2,$1,');
    });
    expect(swapped.issues.map(({ code }) => code)).toEqual(['diffuse-above-global', 'parts']);
  });

  it('many values that cannot be: the first twenty are listed, the hole is too long to fill', () => {
    const result = edited((rows) => {
      for (let i = 0; i < 30; i++) cell(i, 2, '-1')(rows);
    });
    expect(result.series).toEqual([]);
    const last = sentences(result).slice(20);
    expect(last).toEqual([
      'y.csv: GHI (W/m^2): found 10 more values that cannot be; expected none; all taken as missing',
      'y.csv: global irradiance: found no values for 30 h from 2023-01-01T05:00:00.000Z; expected gaps of at most 1440 min (maxGapMin), with a day beside them to fill them from',
    ]);
    expect(
      readTmy3(
        bytes(
          tmy3Text(YEAR, (rows) => {
            for (let i = 0; i < 30; i++) cell(i, 2, '-1')(rows);
          }),
        ),
        'y',
        { maxGapMin: 2000 },
      ).sheet?.filled,
    ).toBe(30);
  });
});

// two rows, made by hand: no year
it('the sample is recognised and refused as no year', () => {
  const sample = readFileSync(new URL('./samples/tmy3_tiny.csv', import.meta.url));
  expect(looksLikeTmy3(sample)).toBe('second line is a TMY3 header');
  expect(sentences(readTmy3(sample, 't.csv'))).toEqual([
    't.csv:4:14: Dry-bulb (C): found 1 missing value, the first here; expected values; filled where the hole is short enough',
    't.csv:3: rows: found 2 hours; expected 8760, a year without 29 February; the longest hole, 8751 h, begins with 1 January 09:00',
  ]);
});
