import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { looksLikePvgis, readPvgis } from '../../src/scenarios/read-pvgis.ts';
import {
  bytes,
  madeYear,
  PVGIS_PLACE,
  pvgisHoursText,
  pvgisTypicalText,
  sentences,
  sumOf,
  total,
  values,
} from './made-weather.ts';

const read = (text: string) => readPvgis(bytes(text), 'p.csv');

describe('the sample of hours on a plane', () => {
  const file = readFileSync(new URL('./samples/pvgis_hourly_tiny.csv', import.meta.url));
  const sample = file.toString('latin1');
  const result = readPvgis(file, 'p.csv');

  // sums in the plane stated beside the hand-made sample
  it('adds the parts on the plane: 725, 836 and 891.5 W/m², one hour reconstructed', () => {
    expect(result.issues).toEqual([]);
    expect(Array.from(values(result, 'poaWPerM2'))).toEqual([725, 836, 891.5]);
    expect(result.sheet?.estimated).toBe(1);
  });

  it('stands for the hour around each stamp, here 00:30 UTC', () => {
    expect(result.series[0].axis).toEqual({ startS: Date.UTC(2020, 0, 1) / 1000, stepMin: 60, count: 3 });
    expect(result.sheet?.timeZone).toBe(
      'UTC; stamps at minute 30, each value for the hour around its stamp; plane tilted 20°, facing 0° from north',
    );
    const ten = read(sample.replaceAll(/:0(\d)30,/g, ':0$110,'));
    expect(ten.series[0].axis.startS).toBe(Date.UTC(2019, 11, 31, 23, 40) / 1000);
    expect(ten.sheet?.timeZone).toMatch(/stamps at minute 10/);
  });

  // PVGIS user manual: azimuth 0 is south, 90 west, -90 east
  it.each([
    [180, 0],
    [0, 180],
    [90, 270],
    [-90, 90],
    [-180, 0],
  ])('turns azimuth %d to %d from north', (there, here) => {
    expect(read(sample.replace('Azimuth: 180', `Azimuth: ${there}`)).plane).toEqual({
      tiltDeg: 20,
      azimuthDeg: here,
    });
  });

  it('has its place', () => {
    expect(looksLikePvgis(file)).toBe('first line is Latitude (decimal degrees):');
    expect(result.location).toEqual({ latDeg: -20, lonDeg: 134, elevationM: 350, utcOffsetH: 0 });
  });

  it('takes G(i) where the parts are not there', () => {
    const whole = sample
      .replace('Gb(i),Gd(i),Gr(i)', 'G(i)')
      .replaceAll(/(:\d{4}),([\d.]+),[\d.]+,[\d.]+/g, '$1,$2');
    expect(Array.from(values(read(whole), 'poaWPerM2'))).toEqual([600, 700, 750]);
  });

  it('says which columns it leaves out', () => {
    const power = sample.replace('time,', 'time,P,').replaceAll(/(:\d{4}),/g, '$1,2000.0,');
    const leftOut = read(power);
    expect(sentences(leftOut)).toEqual([
      "p.csv:9: columns: found 'P'; expected irradiance, air and wind; these are left out",
    ]);
    expect(Array.from(values(leftOut, 'poaWPerM2'))).toEqual([725, 836, 891.5]);
  });

  const reading = 'expected rows YYYYMMDD:HHMM to the end of the table, then a blank line or notes';
  it.each<[string, (text: string) => string, string[]]>([
    [
      'no table',
      (text) => text.replace('time,', 'tame,'),
      [
        "p.csv:1: header: found 'Latitude (decimal degrees):?-20.000'; expected a table below a line that begins with time, or time(UTC),",
      ],
    ],
    [
      'a row above the header',
      (text) => text.replace(/(time,.*\n)(2020.*\n)/, '$2$1'),
      [
        "p.csv:9: rows: found '20200101:0030,600.0,120.0,5.0,45.0,33.1…'; expected rows below the header only",
      ],
    ],
    [
      'no irradiance on the plane',
      (text) => text.replace('Gd(i),', 'Gx(i),'),
      [
        "p.csv:9: irradiance on the plane: found 'time,Gb(i),Gx(i),Gr(i),H_sun,T2m,WS10m,…'; expected G(i), or Gb(i), Gd(i), Gr(i)",
        "p.csv:9: columns: found 'Gx(i)'; expected irradiance, air and wind; these are left out",
      ],
    ],
    [
      'a column twice',
      (text) => text.replace('Gd(i),', 'Gb(i),'),
      [
        "p.csv:9: 'Gb(i)': found two such columns; expected names of their own",
        "p.csv:9: irradiance on the plane: found 'time,Gb(i),Gb(i),Gr(i),H_sun,T2m,WS10m,…'; expected G(i), or Gb(i), Gd(i), Gr(i)",
      ],
    ],
    [
      'a plane that turns',
      (text) => text.replace('Slope: 20 deg. ', 'Slope: - ').replace('Azimuth: 180 deg. ', ''),
      [
        "p.csv:7: Slope: found '-'; expected 0 to 90 deg., of an array that does not move",
        "p.csv:1: Azimuth: found ''; expected -180 to 180 deg., of an array that does not move",
      ],
    ],
    [
      'a place that is none',
      (text) => text.replace('-20.000', '-200').replace('350', ''),
      [
        "p.csv:1: latitude: found '-200'; expected -90 to 90 °, north positive",
        "p.csv:3: elevation: found ''; expected -500 to 9000 m above the sea",
      ],
    ],
    [
      'a broken stamp with rows after it',
      (text) => text.replace('20200101:0130', '2020o101:0130'),
      [`p.csv:11: rows: found '2020o101:0130,700.0,130.0,6.0,58.0,34.6…' with rows after it; ${reading}`],
    ],
    [
      'a broken stamp at the end',
      (text) => text.replace('20200101:0230', 'r0200101:0230'),
      [`p.csv:12: rows: found 'r0200101:0230,750.0,135.0,6.5,71.0,35.9…'; ${reading}`],
    ],
    [
      'a blank line among the rows',
      (text) => text.replace(/\r?\n20200101:0130/, '\n\n20200101:0130'),
      [`p.csv:11: rows: found '' with rows after it; ${reading}`],
    ],
    [
      'a time that does not exist',
      (text) => text.replace('20200101:0130', '20200132:0130'),
      ["p.csv:11:1: time: found '20200132:0130'; expected a time that exists, YYYYMMDD:HHMM"],
    ],
    [
      'a cell too many',
      (text) => text.replace(',58.0,', ',58.0,1,'),
      ['p.csv:11: row: found 9 cells; expected 8, as in the header'],
    ],
    [
      'text for a number',
      (text) => text.replace(',130.0,', ',13o.0,'),
      [
        "p.csv:11:3: Gb(i)+Gd(i)+Gr(i): found '13o.0'; expected a number, or the sign of the format for a missing value",
      ],
    ],
    [
      'two rows for an hour',
      (text) => text.replace(':0130', ':0030'),
      [
        'p.csv:11: rows: found another row for 2020-01-01T00:30Z, which differs from line 10; expected one row for each stamp',
        'p.csv:10: rows: found 2 hours; expected 3, from the first row to the last; the longest hole, 1 h, begins with 2020-01-01T01:30Z; filled as the data sheet says',
      ],
    ],
    [
      'a year wrong',
      (text) => text.replace('20200101:0230', '20290101:0230'),
      [
        "p.csv:12: rows: found no rows for 78912 h before '20290101:0230'; expected an hour each, with holes of at most 1440 min",
      ],
    ],
    [
      'no rows',
      (text) => text.replace(/(\d{8}:.*\r?\n)+/, ''),
      ['p.csv:9: rows: found no rows; expected hours of data below the header'],
    ],
  ])('is refused with %s', (_, change, expected) => {
    const broken = read(change(sample));
    expect(broken.series).toEqual([]);
    expect(sentences(broken)).toEqual(expected);
  });

  it.each<[string, (text: string) => string, string[], number[]]>([
    [
      'cut off after a row',
      (text) => text.slice(0, text.indexOf('20200101:0230')),
      [
        'p.csv:11: rows: found no notes after the table; expected the notes that end such a file; it may be cut off',
      ],
      [725, 836],
    ],
    [
      'a row lost',
      (text) => text.replace(/20200101:0130.*\r?\n/, ''),
      [
        'p.csv:10: rows: found 2 hours; expected 3, from the first row to the last; the longest hole, 1 h, begins with 2020-01-01T01:30Z; filled as the data sheet says',
      ],
      [725, 808.25, 891.5],
    ],
    [
      'a negative part',
      (text) => text.replace(',130.0,', ',-130.0,'),
      ["p.csv:11:3: Gb(i)+Gd(i)+Gr(i): found '-130.0'; expected 0 to 1500 W/m²; taken as missing"],
      [725, 808.25, 891.5],
    ],
    [
      'too much light',
      (text) => text.replace(',700.0,', ',1400.0,'),
      ["p.csv:11:3: Gb(i)+Gd(i)+Gr(i): found '130.0'; expected 0 to 1500 W/m²; taken as missing"],
      [725, 808.25, 891.5],
    ],
    [
      'another minute',
      (text) => text.replace(':0130', ':0131'),
      [
        'p.csv:11: time: found 1 stamp at another minute, the first here; expected minute 30, as in most rows; read so',
      ],
      [725, 836, 891.5],
    ],
    [
      'no marks',
      (text) => text.replace(',Int', ',Inx'),
      [
        "p.csv:9: Int: found no such column; expected a column 'Int'",
        "p.csv:9: columns: found 'Inx'; expected irradiance, air and wind; these are left out",
      ],
      [725, 836, 891.5],
    ],
    [
      'an odd mark',
      (text) => text.replace('2.8,1.0', '2.8,7.0'),
      [
        'p.csv:12: rows: found 1 row without 0 or 1 under Int, the first here; expected 0, or 1 for a reconstructed hour',
      ],
      [725, 836, 891.5],
    ],
    [
      'light at night',
      (text) => text.replace('134.000', '-46.000'),
      [
        'p.csv:10: irradiance: found 3 rows with irradiance while the sun is down, the first here; expected darkness at night; check the place, the offset from UTC and what the stamps mean',
      ],
      [725, 836, 891.5],
    ],
  ])('is doubted with %s', (_, change, expected, poa) => {
    const doubted = read(change(sample));
    expect(sentences(doubted)).toEqual(expected);
    expect(Array.from(values(doubted, 'poaWPerM2'))).toEqual(poa);
  });
});

describe('a year of hours on a plane', () => {
  it.each([10, 30, 50])('with stamps at minute %d keeps irradiation to 1e-9', (minute) => {
    const year = madeYear(PVGIS_PLACE, 60, minute - 30);
    const result = read(pvgisHoursText(year, minute));
    expect(result.issues).toEqual([]);
    expect(Math.abs(total(result, 'poaWPerM2') / sumOf(year, 'global') - 1)).toBeLessThan(1e-9);
    expect(result.plane).toEqual({ tiltDeg: 0, azimuthDeg: 270 });
    // the temperature at the stamp, in the middle of the step, is taken as its mean
    expect(values(result, 'airC')[77]).toBe(year[77].air);
  });
});

describe('a typical year of PVGIS', () => {
  // 0.1761 h was seen in a real file: 11 minutes after the stamp
  it.each([
    [0.1761, 11],
    [0.5, 30],
    [0, 0],
  ])(
    'with an offset of %d h keeps irradiation to 1e-9 and begins its steps 30 min before',
    (offsetH, minutes) => {
      const year = madeYear(PVGIS_PLACE, 60, minutes - 30);
      const result = read(pvgisTypicalText(year, offsetH));
      expect(result.issues).toEqual([]);
      expect(Math.abs(total(result, 'ghiWPerM2') / sumOf(year, 'global') - 1)).toBeLessThan(1e-9);
      expect(Math.abs(total(result, 'dniWPerM2') / sumOf(year, 'direct') - 1)).toBeLessThan(1e-9);
      expect(Math.abs(total(result, 'dhiWPerM2') / sumOf(year, 'diffuse') - 1)).toBeLessThan(1e-9);
      expect(result.series[0].axis).toEqual({
        startS: Date.UTC(2023, 0, 1) / 1000 + (minutes - 30) * 60,
        stepMin: 60,
        count: 8760,
      });
      expect(total(result, 'airC')).toBeCloseTo(sumOf(year, 'air'), 6);
      expect(result.sheet?.timeZone).toContain(
        `irradiance stands for the hour around ${minutes} min after the stamp`,
      );
      expect(result.sheet?.timeZone).toContain('any calendar year');
    },
  );

  it('reads the temperature at the full hour, not an hour late', () => {
    const year = madeYear(PVGIS_PLACE);
    const air = values(read(pvgisTypicalText(year, 0.5)), 'airC');
    expect(air[100]).toBeCloseTo((year[100].air + year[101].air) / 2, 12);
  });

  it('without an offset is read as that of the hour after the stamp, which is doubted', () => {
    const year = madeYear(PVGIS_PLACE);
    const result = read(pvgisTypicalText(year, null));
    expect(sentences(result)).toEqual([
      'p.csv: Irradiance Time Offset: found no such line; expected hours from the stamp to the moment of the irradiance, -0.5 to 1; read as 0.5',
    ]);
    expect(result.series[0].axis.startS).toBe(Date.UTC(2023, 0, 1) / 1000);
  });

  it('takes -0.0 as nothing', () => {
    const text = pvgisTypicalText(madeYear(PVGIS_PLACE), 0.5).replaceAll(',0.0,', ',-0.0,');
    const result = read(text);
    expect(result.issues).toEqual([]);
    expect(values(result, 'ghiWPerM2').some((value) => Object.is(value, -0))).toBe(false);
  });

  const year = madeYear(PVGIS_PLACE);
  const made = (edit: (rows: string[]) => void) => pvgisTypicalText(year, 0.5, edit);
  it.each<[string, string, string[], boolean]>([
    [
      'rows cut off',
      made((rows) => {
        rows.splice(500);
      }),
      [
        'p.csv:508: rows: found 500 hours; expected 8760, a year without 29 February; the longest hole, 8260 h, begins with 21 January 20:00',
      ],
      false,
    ],
    [
      'a minute',
      made((rows) => {
        rows[5] = rows[5].replace(':0500', ':0510');
      }),
      [
        "p.csv:14:1: time: found '20060101:0510'; expected full hours",
        'p.csv:13: rows: found 8759 hours; expected 8760, a year without 29 February; the longest hole, 1 h, begins with 1 January 05:00; filled as the data sheet says',
      ],
      false,
    ],
    [
      'an offset that is none',
      made(() => {}).replace('(h): 0.5', '(h): x'),
      [
        "p.csv:4: Irradiance Time Offset: found 'x'; expected hours from the stamp to the moment of the irradiance, -0.5 to 1",
      ],
      false,
    ],
    [
      'no diffuse column',
      made(() => {}).replace('Gd(h)', 'Gx(h)'),
      ["p.csv:8: Gd(h): found no such column; expected a column 'Gd(h)'"],
      false,
    ],
    [
      'a 29 February',
      made((rows) => {
        rows.splice(59 * 24, 0, ...rows.slice(0, 24).map((row) => row.replace('20060101', '20080229')));
      }),
      [
        'p.csv:1425: rows: found 24 rows of 29 February, the first here; expected a year of 365 days; they are left out',
      ],
      true,
    ],
  ])('with %s', (_, text, expected, isRead) => {
    const result = read(text);
    expect(sentences(result)).toEqual(expected);
    expect(result.series.length > 0).toBe(isRead);
  });
});
