import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { kineticCapacityKwh } from '../../../src/sim/wear/kinetic-battery.ts';
import { fitKinetic } from '../../../src/sim/wear/kinetic-fit.ts';

const HOURS = [1, 2, 5, 10, 20];
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** Sum of squares of relative misses in the form that the fit makes least: given over fitted. */
function squares(given: readonly number[], q: number, c: number, k: number): number {
  return HOURS.reduce((sum, time, i) => sum + (given[i] / kineticCapacityKwh(q, time, c, k) - 1) ** 2, 0);
}

describe('wells fitted to a discharge table', () => {
  // Manwell and McGowan's model for 100 Ah, c 0.6, k 0.5 per hour (derived from the paper's equations)
  it('find the battery of a published example from its capacities, as printed to four digits', () => {
    const fit = fitKinetic(HOURS, [65.5899, 70.3525, 80.3357, 88.3053, 93.7503]);
    expect(Math.abs(fit.capacity - 100)).toBeLessThan(0.001);
    expect(Math.abs(fit.atHandFrac - 0.6)).toBeLessThan(0.00005);
    expect(Math.abs(fit.ratePerH - 0.5)).toBeLessThan(0.0001);
    expect(fit.worst).toBeLessThan(1e-6);
  });

  it('find any battery from points made of it', () => {
    fc.assert(
      fc.property(between(1, 500), between(0.1, 0.9), between(0.05, 3), (q, c, k) => {
        const fit = fitKinetic(
          HOURS,
          HOURS.map((time) => kineticCapacityKwh(q, time, c, k)),
        );
        expect(Math.abs(fit.capacity / q - 1)).toBeLessThan(1e-6);
        expect(Math.abs(fit.atHandFrac - c)).toBeLessThan(1e-6);
        expect(Math.abs(fit.ratePerH / k - 1)).toBeLessThan(1e-6);
        expect(fit.worst).toBeLessThan(1e-9);
      }),
    );
  });

  it('are the best there are for points that no battery meets', () => {
    const bumps = fc.array(between(-0.03, 0.03), { minLength: 5, maxLength: 5 });
    fc.assert(
      fc.property(between(0.2, 0.8), between(0.1, 2), bumps, (c, k, bump) => {
        const given = HOURS.map((time, i) => kineticCapacityKwh(100, time, c, k) * (1 + bump[i]));
        const fit = fitKinetic(HOURS, given);
        const least = squares(given, fit.capacity, fit.atHandFrac, fit.ratePerH);
        for (const [dq, dc, dk] of [
          [1.001, 0, 1],
          [0.999, 0, 1],
          [1, 0.001, 1],
          [1, -0.001, 1],
          [1, 0, 1.001],
          [1, 0, 0.999],
        ]) {
          const other = [fit.capacity * dq, fit.atHandFrac + dc, fit.ratePerH * dk] as const;
          const within = other[1] >= 0.05 && other[1] <= 0.95 && other[2] >= 0.001 && other[2] <= 20;
          if (within) expect(squares(given, ...other)).toBeGreaterThanOrEqual(least - 1e-12);
        }
      }),
    );
  });

  it('tell the point that they miss most', () => {
    const given = HOURS.map((time) => kineticCapacityKwh(100, time, 0.5, 0.4));
    given[2] *= 1.2;
    const fit = fitKinetic(HOURS, given);
    const missed = HOURS.map((time, i) =>
      Math.abs(kineticCapacityKwh(fit.capacity, time, fit.atHandFrac, fit.ratePerH) / given[i] - 1),
    );
    expect(fit.worst).toBe(Math.max(...missed));
    expect(fit.worstHours).toBe(5);
  });

  it('stay within their bounds where the table knows no second well', () => {
    const fit = fitKinetic(HOURS, [100, 100, 100, 100, 100]);
    expect(fit.atHandFrac).toBeLessThanOrEqual(0.95);
    expect(fit.worst).toBeLessThan(0.001);
  });
});
