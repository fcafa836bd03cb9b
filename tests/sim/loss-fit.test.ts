import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitLossCurve } from '../../src/sim/loss-fit.ts';

const SHARES = [0.05, 0.1, 0.2, 0.3, 0.5, 0.75, 1];
const efficiencyOf = (share: number, idle: number, linear: number, quadratic: number) =>
  share / (share + idle + linear * share + quadratic * share * share);

describe('a loss curve fitted to efficiencies', () => {
  it('gives back the curve that the points were made from', () => {
    const efficiencies = SHARES.map((share) => efficiencyOf(share, 0.008, 0.02, 0.03));
    const fit = fitLossCurve(SHARES, efficiencies);
    expect(fit.idleShare).toBeCloseTo(0.008, 10);
    expect(fit.linear).toBeCloseTo(0.02, 10);
    expect(fit.quadraticAtRated).toBeCloseTo(0.03, 10);
    expect(fit.worst).toBeLessThan(1e-10);
  });

  it('by hand: three points settle three coefficients', () => {
    // at shares 0.25, 0.5, 1 losses over power of 0.07, 0.065, 0.085 are met by idle 0.01, linear 0.015, square 0.06
    const losses = [0.01 / 0.25 + 0.015 + 0.06 * 0.25, 0.01 / 0.5 + 0.015 + 0.06 * 0.5, 0.085];
    expect(losses[0]).toBeCloseTo(0.07, 12);
    expect(losses[1]).toBeCloseTo(0.065, 12);
    const fit = fitLossCurve(
      [0.25, 0.5, 1],
      losses.map((loss) => 1 / (1 + loss)),
    );
    expect([fit.idleShare, fit.linear, fit.quadraticAtRated].map((value) => value.toFixed(9))).toEqual([
      '0.010000000',
      '0.015000000',
      '0.060000000',
    ]);
  });

  it('puts no coefficient below 0, and says how far off it then is and where', () => {
    // made with a linear term of −0.01, which no loss has
    const efficiencies = SHARES.map((share) => efficiencyOf(share, 0.01, -0.01, 0.05));
    const fit = fitLossCurve(SHARES, efficiencies);
    expect(fit.linear).toBe(0);
    expect(fit.idleShare).toBeGreaterThan(0);
    const at = SHARES.indexOf(fit.worstShare);
    const there = efficiencyOf(fit.worstShare, fit.idleShare, 0, fit.quadraticAtRated);
    expect(fit.worst).toBeCloseTo(Math.abs(there - efficiencies[at]), 12);
    expect(fit.worst).toBeGreaterThan(0.001);
  });

  it('is not bettered by any small change that keeps the coefficients at or above 0', () => {
    const point = fc.record({
      share: fc.integer({ min: 1, max: 40 }).map((n) => n / 40),
      efficiency: fc.double({ min: 0.6, max: 0.99, noNaN: true }),
    });
    const sum = (points: { share: number; efficiency: number }[], c: readonly number[]) =>
      points.reduce((all, { share, efficiency }) => {
        const off = c[0] / share + c[1] + c[2] * share - (1 / efficiency - 1);
        return all + off * off;
      }, 0);
    fc.assert(
      fc.property(
        fc.uniqueArray(point, { minLength: 3, maxLength: 10, selector: ({ share }) => share }),
        (points) => {
          const fit = fitLossCurve(
            points.map(({ share }) => share),
            points.map(({ efficiency }) => efficiency),
          );
          const best = [fit.idleShare, fit.linear, fit.quadraticAtRated];
          expect(best.every((value) => value >= 0)).toBe(true);
          for (const [k, value] of best.entries())
            for (const step of [-1e-4, 1e-4]) {
              const near = best.with(k, Math.max(0, value + step));
              expect(sum(points, near)).toBeGreaterThanOrEqual(sum(points, best) - 1e-12);
            }
        },
      ),
      { numRuns: 300 },
    );
  });
});
