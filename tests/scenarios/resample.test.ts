import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fillGaps } from '../../src/scenarios/gaps.ts';
import { layTypicalYear, resample } from '../../src/scenarios/resample.ts';

const sum = (values: ArrayLike<number>) => Array.from(values).reduce((total, value) => total + value, 0);

describe('resample', () => {
  it('keeps energy from any step to any other', () => {
    const steps = fc.constantFrom(1, 5, 10, 15, 20, 30, 60);
    fc.assert(
      fc.property(steps, steps, fc.integer({ min: 1, max: 4 }), (from, to, hours) => {
        const count = (24 * 60) / from;
        const values = Float64Array.from({ length: count }, (_, i) => ((i * 37) % 11) + 0.1 * i);
        const source = { startS: 0, stepMin: from, count };
        const target = { startS: hours * 3600, stepMin: to, count: (6 * 60) / to };
        const out = resample(values, source, target);
        const first = (hours * 60) / from;
        const inside = values.subarray(first, first + (6 * 60) / from);
        expect(Math.abs(sum(out) * to - sum(inside) * from)).toBeLessThan(1e-9);
      }),
    );
  });

  it('gives no values outside the source', () => {
    const out = resample(
      Float64Array.of(1, 2),
      { startS: 0, stepMin: 60, count: 2 },
      { startS: 3600, stepMin: 60, count: 2 },
    );
    expect(out[0]).toBe(2);
    expect(out[1]).toBeNaN();
  });
});

describe('layTypicalYear', () => {
  const year = Float64Array.from({ length: 8760 }, (_, hour) => Math.floor(hour / 24));

  it('repeats 28 February on 29 February, and the year for the next', () => {
    const offsetS = 10 * 3600;
    const startS = Date.UTC(2024, 0, 1) / 1000 - offsetS;
    const out = layTypicalYear(year, 60, offsetS, { startS, stepMin: 60, count: 24 * (366 + 365) });
    const day = (n: number) => out[n * 24 + 12];
    expect([day(0), day(58), day(59), day(60), day(365), day(366), day(366 + 364)]).toEqual([
      0, 58, 58, 59, 364, 0, 364,
    ]);
  });

  it('keeps every hour of a common year', () => {
    const startS = Date.UTC(2025, 0, 1) / 1000;
    const out = layTypicalYear(year, 60, 0, { startS, stepMin: 5, count: 8760 * 12 });
    expect(sum(out) / 12).toBeCloseTo(sum(year), 6);
  });
});

describe('fillGaps', () => {
  const axis = { startS: 0, stepMin: 30, count: 96 };
  const withGap = (from: number, to: number) =>
    Float64Array.from({ length: 96 }, (_, i) => (i >= from && i < to ? Number.NaN : i));

  it('fills a short gap by a straight line, a longer one from the day before', () => {
    const short = withGap(10, 12);
    expect(fillGaps(short, axis, 600, 'load', 'f').gaps[0].filledBy).toMatch(/straight line/);
    expect(short[10]).toBe(10);
    const long = withGap(60, 70);
    expect(fillGaps(long, axis, 600, 'load', 'f').gaps[0]).toMatchObject({
      steps: 10,
      filledBy: 'same time 1 day before',
    });
    expect(long[60]).toBe(12);
  });

  it('leaves a gap that is too long, and says so', () => {
    const values = withGap(20, 60);
    const { gaps, issues } = fillGaps(values, axis, 600, 'load', 'f.csv');
    expect(gaps[0].filledBy).toBeNull();
    expect(issues[0]).toMatchObject({ severity: 'error', code: 'gap', at: { file: 'f.csv' } });
    expect(values[30]).toBeNaN();
  });
});
