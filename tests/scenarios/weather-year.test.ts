import { describe, expect, it } from 'vitest';
import { issueSentence } from '../../src/scenarios/issue.ts';
import { readCsv } from '../../src/scenarios/read-csv.ts';
import { readPvgis } from '../../src/scenarios/read-pvgis.ts';
import { readTmy3 } from '../../src/scenarios/read-tmy3.ts';
import type { ReadResult, TimeAxis } from '../../src/scenarios/series.ts';
import { weatherOnAxis } from '../../src/scenarios/weather-year.ts';
import { sunPath } from '../../src/sim/sky/plane.ts';
import { bytes, madeYear, PLACE, PVGIS_PLACE, pvgisHoursText, sumOf, tmy3Text } from './made-weather.ts';

const YEAR = madeYear();
const tmy3 = readTmy3(bytes(tmy3Text(YEAR)), 'y.csv');
/** Midnight of standard time at the place. */
const midnight = (year: number) => Date.UTC(year, 0, 1) / 1000 - PLACE.utcOffsetH * 3600;
const sum = (values: Float64Array) => values.reduce((total, value) => total + value, 0);
const codes = (result: ReturnType<typeof weatherOnAxis>) => result.issues.map(({ code }) => code);

describe('a typical year', () => {
  it('is laid on years of the calendar: 28 February again on 29 February', () => {
    const axis = { startS: midnight(2024), stepMin: 60, count: 24 * (366 + 365) };
    const { weather, issues } = weatherOnAxis(tmy3, axis);
    expect(issues).toEqual([]);
    const global = weather!.ghiWPerM2!;
    expect(global[58 * 24 + 12]).toBe(YEAR[58 * 24 + 12].global);
    expect(global[59 * 24 + 12]).toBe(YEAR[58 * 24 + 12].global);
    expect(global[60 * 24 + 12]).toBe(YEAR[59 * 24 + 12].global);
    expect(sum(global.subarray(366 * 24))).toBe(sumOf(YEAR, 'global'));
    expect(weather!.laid).toBe(
      'a typical year repeated over the calendar years; finer steps repeat the mean',
    );
    expect(weather!.poaWPerM2).toBeNull();
  });

  it.each([1, 5, 15, 30])('in steps of %d min keeps the mean of every hour, flat', (stepMin) => {
    const axis = { startS: midnight(2025) + 200 * 86400, stepMin, count: (24 * 60) / stepMin };
    const global = weatherOnAxis(tmy3, axis).weather!.ghiWPerM2!;
    for (const [i, value] of global.entries())
      expect(value).toBe(YEAR[200 * 24 + Math.floor((i * stepMin) / 60)].global);
  });

  it('is refused where it is no year', () => {
    const short = {
      ...tmy3,
      series: tmy3.series.slice(0, 1).map((one) => ({ ...one, axis: { ...one.axis, count: 24 } })),
    };
    const result = weatherOnAxis(short, { startS: 0, stepMin: 60, count: 1 });
    expect(result.weather).toBeNull();
    expect(result.issues.map(issueSentence)).toEqual([
      'y.csv: global irradiance: found 24 steps of 60 min from 2023-01-01T05:00Z; expected 365 days from 1 January 00:00 in standard time, as in 2023',
    ]);
  });
});

describe("steps that follow the sun's height", () => {
  const axis: TimeAxis = { startS: midnight(2025), stepMin: 5, count: 365 * 288 };
  const flat = weatherOnAxis(tmy3, axis).weather!;
  const { weather, issues } = weatherOnAxis(tmy3, axis, { within: 'sun' });

  it.each(['ghiWPerM2', 'dniWPerM2', 'dhiWPerM2'] as const)(
    'keep the mean of every hour of %s',
    (quantity) => {
      expect(issues).toEqual([]);
      const [shaped, even] = [weather![quantity]!, flat[quantity]!];
      let moved = 0;
      for (let hour = 0; hour < 8760; hour++) {
        const mean = sum(shaped.subarray(hour * 12, hour * 12 + 12)) / 12;
        expect(Math.abs(mean - even[hour * 12])).toBeLessThanOrEqual(1e-12 * Math.max(1, mean));
        moved += Math.abs(shaped[hour * 12] - even[hour * 12]);
      }
      expect(moved).toBeGreaterThan(100);
    },
  );

  it('rise with the sun in the morning, none brighter than outside the air', () => {
    const morning = (180 * 24 + 8) * 12;
    const global = weather!.ghiWPerM2!;
    for (let i = morning + 1; i < morning + 12; i++) expect(global[i]).toBeGreaterThan(global[i - 1]);
    const path = sunPath(axis.startS, 5, axis.count, PLACE.latDeg, PLACE.lonDeg);
    expect(global.every((value, i) => value <= path.extraNormal[i])).toBe(true);
    expect(weather!.airC).toEqual(flat.airC);
    expect(weather!.laid).toMatch(/follows the sun's height/);
  });

  it('have the same shape where the axis begins within an hour', () => {
    const part = { startS: axis.startS + 190 * 86400 + 35 * 60, stepMin: 5, count: 300 };
    const cut = weatherOnAxis(tmy3, part, { within: 'sun' }).weather!.ghiWPerM2!;
    const from = 190 * 288 + 7;
    expect(Array.from(cut)).toEqual(Array.from(weather!.ghiWPerM2!.subarray(from, from + 300)));
  });

  it('stay flat in hours whose light the sun cannot explain', () => {
    const far = { ...tmy3, location: { latDeg: 36.1, lonDeg: 100 } };
    const odd = weatherOnAxis(far, axis, { within: 'sun' }).weather!.ghiWPerM2!;
    expect(odd.every(Number.isFinite)).toBe(true);
    expect(sum(odd) / 12).toBeCloseTo(sumOf(YEAR, 'global'), 3);
    expect(Math.max(...odd.subarray(0, 288 * 30))).toBeLessThan(1420);
  });

  it('need a place', () => {
    const nowhere: ReadResult = { ...tmy3, location: undefined };
    expect(codes(weatherOnAxis(nowhere, axis, { within: 'sun' }))).toEqual(['place']);
  });
});

describe('hours of the calendar', () => {
  const year = madeYear(PVGIS_PLACE, 60, -20);
  // stamps at minute 10: the steps begin at 23:40 of the day before
  const pvgis = readPvgis(bytes(pvgisHoursText(year, 10)), 'p.csv');
  const start = Date.UTC(2019, 0, 1) / 1000;

  it('on the plane keep their energy, on the hour and finer', () => {
    const hours = weatherOnAxis(pvgis, { startS: start, stepMin: 60, count: 8759 }).weather!;
    expect(hours.plane).toEqual({ tiltDeg: 0, azimuthDeg: 270 });
    expect(hours.ghiWPerM2).toBeNull();
    // of two neighbouring steps, 40 and 20 minutes
    const noon = 150 * 24 + 11;
    expect(hours.poaWPerM2![noon]).toBeCloseTo((year[noon].global * 40 + year[noon + 1].global * 20) / 60, 9);
    const tens = weatherOnAxis(pvgis, { startS: start - 1200, stepMin: 10, count: 8760 * 6 }).weather!;
    expect(Math.abs(sum(tens.poaWPerM2!) / 6 / sumOf(year, 'global') - 1)).toBeLessThan(1e-9);
  });

  it('are held on for up to half an hour at their ends, with a doubt', () => {
    const result = weatherOnAxis(pvgis, { startS: start, stepMin: 5, count: 8760 * 12 });
    expect(result.issues.map(issueSentence)[0]).toBe(
      'p.csv: irradiance on the plane: found values from 2018-12-31T23:40Z to 2019-12-31T23:40Z; expected the whole period, 2019-01-01T00:00Z to 2020-01-01T00:00Z; the value at the end is held on',
    );
    const air = result.weather!.airC!;
    expect(Array.from(air.subarray(-4))).toEqual(new Array(4).fill(year[8759].air));
  });

  it('are refused where they do not cover the axis', () => {
    const result = weatherOnAxis(pvgis, { startS: start - 7200, stepMin: 60, count: 24 });
    expect(result.weather).toBeNull();
    expect(codes(result)).toEqual(['too-short', 'too-short', 'too-short']);
  });

  it('take the mean of finer rows', () => {
    const rows = Array.from(
      { length: 24 },
      (_, i) =>
        `2025-01-01 ${String(Math.floor(i / 4)).padStart(2, '0')}:${String((i % 4) * 15).padStart(2, '0')},${i * i},${i}`,
    );
    const csv = readCsv(bytes(['time,ghi,air', ...rows].join('\n')), 'c.csv', {
      columns: [
        { column: 'ghi', quantity: 'ghiWPerM2', unit: 'W/m2' },
        { column: 'air', quantity: 'airC', unit: 'C' },
      ],
      stamp: 'start',
      timeZone: 'UTC',
      maxGapMin: 60,
    });
    const { weather } = weatherOnAxis(csv, { startS: Date.UTC(2025, 0, 1) / 1000, stepMin: 60, count: 6 });
    expect(Array.from(weather!.airC!)).toEqual([1.5, 5.5, 9.5, 13.5, 17.5, 21.5]);
    expect(weather!.ghiWPerM2![1]).toBe((16 + 25 + 36 + 49) / 4);
  });

  it('pass the problems of their reader by', () => {
    const refused = readTmy3(bytes('a'), 'a.csv');
    expect(weatherOnAxis(refused, { startS: 0, stepMin: 60, count: 1 })).toEqual({
      weather: null,
      issues: [],
    });
    expect(codes(weatherOnAxis({ ...refused, issues: [] }, { startS: 0, stepMin: 60, count: 1 }))).toEqual([
      'weather-file',
    ]);
  });
});
