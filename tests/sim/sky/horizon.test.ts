import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { horizonElevationDeg, horizonOf, isBehindHorizon } from '../../../src/sim/sky/horizon.ts';

describe('horizon', () => {
  it('is straight between points, in any order, and round past north', () => {
    const horizon = horizonOf([
      [270, 20],
      [90, 10],
      [350, 4],
      [10, 8],
    ]);
    expect(horizonElevationDeg(horizon, 90)).toBe(10);
    expect(horizonElevationDeg(horizon, 180)).toBeCloseTo(15, 12);
    expect(horizonElevationDeg(horizon, 310)).toBeCloseTo(12, 12);
    expect(horizonElevationDeg(horizon, 355)).toBeCloseTo(5, 12);
    expect(horizonElevationDeg(horizon, 0)).toBeCloseTo(6, 12);
    expect(horizonElevationDeg(horizon, 5)).toBeCloseTo(7, 12);
  });

  it('takes one point for all round, and 0 and 360 as one', () => {
    expect(horizonElevationDeg(horizonOf([[120, 7]]), 301)).toBe(7);
    const horizon = horizonOf([
      [0, 3],
      [180, 9],
      [360, 5],
    ]);
    expect(horizon.azimuthDeg).toHaveLength(2);
    expect(horizonElevationDeg(horizon, 0)).toBe(5);
    expect(horizonElevationDeg(horizon, 270)).toBeCloseTo(7, 12);
  });

  it('refuses no points and points that are not numbers', () => {
    expect(() => horizonOf([])).toThrow();
    expect(() => horizonOf([[Number.NaN, 3]])).toThrow();
  });

  it('hides the sun below it', () => {
    const horizon = horizonOf([[0, 10]]);
    expect(isBehindHorizon(horizon, Math.sin((9.9 * Math.PI) / 180), 77)).toBe(true);
    expect(isBehindHorizon(horizon, Math.sin((10.1 * Math.PI) / 180), 77)).toBe(false);
  });

  it('stays between the lowest and highest point, and does not jump', () => {
    const points = fc.array(
      fc.tuple(fc.integer({ min: 0, max: 359 }), fc.double({ min: 0, max: 60, noNaN: true })),
      { minLength: 1, maxLength: 12 },
    );
    fc.assert(
      fc.property(points, fc.double({ min: 0, max: 359.9, noNaN: true }), (given, azimuth) => {
        const horizon = horizonOf(given);
        const here = horizonElevationDeg(horizon, azimuth);
        expect(here).toBeGreaterThanOrEqual(Math.min(...horizon.elevationDeg) - 1e-9);
        expect(here).toBeLessThanOrEqual(Math.max(...horizon.elevationDeg) + 1e-9);
        // points are at least a degree apart and at most 60° high
        const beside = horizonElevationDeg(horizon, (azimuth + 0.01) % 360);
        expect(Math.abs(beside - here)).toBeLessThan(0.61);
      }),
      { numRuns: 500 },
    );
  });
});
