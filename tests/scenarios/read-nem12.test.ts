import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { looksLikeNem12, readNem12 } from '../../src/scenarios/read-nem12.ts';
import type { Quantity, ReadResult } from '../../src/scenarios/series.ts';
import { bytes, channel, file, kwh, nem } from './small-nem12.ts';

/** Rules: AEMO, Meter Data File Format Specification NEM12 & NEM13, v2.6, as transcribed in public code. */
const sample = new Uint8Array(readFileSync(new URL('./samples/nem12_tiny.csv', import.meta.url)));
const text = new TextDecoder().decode(sample).replaceAll('\r', '');
const dayKwh = (result: ReadResult, quantity: Quantity, day: number) =>
  result.series
    .find((one) => one.quantity === quantity)!
    .values.subarray(48 * day, 48 * day + 48)
    .reduce((sum, kw) => sum + kw / 2, 0);

describe('the NEM12 sample', () => {
  it('gives drawn 14.840 and 14.600 kWh, sent 9.100 and 0.800, 26 actual, 5 and 17 estimated intervals', () => {
    // totals stated beside the hand-made sample
    const result = readNem12(sample, 'nem12_tiny.csv');
    expect(result.issues).toEqual([]);
    expect(dayKwh(result, 'loadKw', 0)).toBeCloseTo(14.84, 12);
    expect(dayKwh(result, 'loadKw', 1)).toBeCloseTo(14.6, 12);
    expect(dayKwh(result, 'generationKw', 0)).toBeCloseTo(9.1, 12);
    expect(dayKwh(result, 'generationKw', 1)).toBeCloseTo(0.8, 12);
    expect(result.sheet).toMatchObject({ estimated: 5 + 17, duplicates: 0, filled: 0, gaps: [] });
  });

  it('puts the first interval at midnight of market time, UTC+10, unless told otherwise', () => {
    const { axis, timeZone } = nem(text).sheet!;
    // midnight of 30 April at UTC+10 is 14:00 UTC of the 29th
    expect(axis).toEqual({ startS: Date.UTC(2024, 3, 29, 14) / 1000, stepMin: 30, count: 96 });
    expect(timeZone).toBe('market time UTC+10 all year, intervals stamped at their end');
    // one portal might use UTC+9:30
    const other = nem(text, { offsetS: 34_200 }).sheet!;
    expect(other.axis.startS - axis.startS).toBe(1800);
    expect(other.timeZone).toMatch(/UTC\+9:30/);
  });

  it('is recognised by its content, with and without its first record', () => {
    expect(looksLikeNem12(sample)).toBe('first record is 100,NEM12');
    const headless = text.slice(text.indexOf('\n') + 1);
    expect(looksLikeNem12(bytes(`\uFEFF\r\n${headless}`))).toBe('a 200 record followed by 300 records');
    expect(looksLikeNem12(bytes('time,kW\n2025-01-01,1\n'))).toBeNull();
    expect(looksLikeNem12(bytes('100,NEM13,1,A,B\n'))).toBe('first record is 100,NEM13');
  });
});

it('keeps the energy of a year of five minutes', () => {
  let total = 0;
  const rows = Array.from({ length: 365 }, (_, k) => {
    const values = Array.from({ length: 288 }, (_, i) => (((k * 288 + i) * 7919) % 997) / 1000);
    total += values.reduce((sum, value) => sum + value, 0);
    const date = new Date(Date.UTC(2025, 0, 1 + k)).toISOString().slice(0, 10).replaceAll('-', '');
    return `300,${date},${values.join(',')},A,,,20260101000000,`;
  });
  const result = nem(file(channel('E1', 'kWh', 5), ...rows));
  expect(result.issues).toEqual([]);
  expect(result.sheet?.axis).toMatchObject({ stepMin: 5, count: 365 * 288 });
  expect(Math.abs(kwh(result, 'loadKw')! / total - 1)).toBeLessThan(1e-9);
});
