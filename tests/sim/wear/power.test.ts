import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exponential, naturalLog, powerOf } from '../../../src/sim/wear/power.ts';

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('powers from + - * / alone', () => {
  it('naturalLog is within 1e-15 of Math.log', () => {
    const positive = fc.oneof(between(5e-324, 1e308), between(1e-9, 2), between(0.9, 1.1));
    fc.assert(
      fc.property(positive, (x) => {
        const expected = Math.log(x);
        const tolerance = Math.max(1e-16, 1e-15 * Math.abs(expected));
        expect(Math.abs(naturalLog(x) - expected)).toBeLessThanOrEqual(tolerance);
      }),
      { numRuns: 5000 },
    );
    expect(naturalLog(1)).toBe(0);
    expect(naturalLog(0)).toBe(Number.NEGATIVE_INFINITY);
    expect(naturalLog(-1)).toBeNaN();
    expect(naturalLog(Number.POSITIVE_INFINITY)).toBe(Number.POSITIVE_INFINITY);
  });

  it('exponential is within 1e-15 of Math.exp', () => {
    fc.assert(
      fc.property(fc.oneof(between(-700, 700), between(-1, 1)), (x) => {
        expect(Math.abs(exponential(x) / Math.exp(x) - 1)).toBeLessThan(1e-15);
      }),
      { numRuns: 5000 },
    );
    expect(exponential(0)).toBe(1);
    expect(exponential(-745)).toBe(5e-324);
    expect(exponential(709.7) / Math.exp(709.7)).toBeCloseTo(1, 14);
    expect(exponential(-746)).toBe(0);
    expect(exponential(710)).toBe(Number.POSITIVE_INFINITY);
  });

  it('powerOf is Math.pow, at 0 too', () => {
    fc.assert(
      fc.property(between(1e-9, 1e9), between(-5, 5), (base, exponent) => {
        const tolerance = 1e-15 * (1 + Math.abs(exponent * Math.log(base)));
        expect(Math.abs(powerOf(base, exponent) / base ** exponent - 1)).toBeLessThan(tolerance);
      }),
      { numRuns: 5000 },
    );
    expect(powerOf(0, 0.5)).toBe(0);
    expect(powerOf(0, 0)).toBe(1);
    expect(powerOf(0, -1)).toBe(Number.POSITIVE_INFINITY);
  });
});
