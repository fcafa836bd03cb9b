import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chargeFactor, storedAfterCharge } from '../../src/sim/battery.ts';

describe('chargeFactor', () => {
  it('is none at and below freezing, rises to all at 10 °C, falls above 45 °C', () => {
    const at = (cellC: number) => chargeFactor(cellC, 0, 10, 45, 55);
    expect([-5, 0, 2.5, 10, 30, 45, 50, 55, 60].map(at)).toEqual([0, 0, 0.25, 1, 1, 1, 0.5, 0, 0]);
  });
});

/** dE/dt = eff · min(offered, accept(E)) by very small steps of the fourth-order Runge-Kutta rule. */
function byFineSteps(
  e: number,
  offered: number,
  limit: number,
  dt: number,
  taperE: number,
  slope: number,
): number {
  const accept = (x: number) => (x <= taperE ? limit : Math.max(0, limit * (1 - slope * (x - taperE))));
  const rate = (x: number) => (x >= FULL ? 0 : EFF * Math.min(offered, accept(x)));
  const n = 20_000;
  const step = dt / n;
  let x = e;
  for (let i = 0; i < n; i++) {
    const k1 = rate(x);
    const k2 = rate(x + (step * k1) / 2);
    const k3 = rate(x + (step * k2) / 2);
    const k4 = rate(x + step * k3);
    x = Math.min(FULL, x + (step * (k1 + 2 * k2 + 2 * k3 + k4)) / 6);
  }
  return x;
}

const FULL = 10;
const EFF = 0.96;

describe('storedAfterCharge', () => {
  it('agrees with fine integration through the taper', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 9.99, noNaN: true }),
        fc.double({ min: 0.01, max: 12, noNaN: true }),
        fc.double({ min: 1 / 60, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 0.9, noNaN: true }),
        (e, offered, dt, endFrac) => {
          const taperE = 8;
          const slope = (1 - endFrac) / (FULL - taperE);
          const exact = storedAfterCharge(e, offered, 6, dt, EFF, taperE, slope, FULL);
          expect(Math.abs(exact - byFineSteps(e, offered, 6, dt, taperE, slope))).toBeLessThan(2e-4);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('does not depend on how a duration is cut', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 9.9, noNaN: true }),
        fc.double({ min: 0.1, max: 12, noNaN: true }),
        fc.integer({ min: 2, max: 60 }),
        (e, offered, cuts) => {
          const whole = storedAfterCharge(e, offered, 6, 1, EFF, 8, 0.45, FULL);
          let x = e;
          for (let i = 0; i < cuts; i++) x = storedAfterCharge(x, offered, 6, 1 / cuts, EFF, 8, 0.45, FULL);
          expect(Math.abs(x - whole)).toBeLessThan(1e-11);
        },
      ),
    );
  });

  it('stops at full', () => {
    expect(storedAfterCharge(9.9, 5, 6, 1, EFF, 10, 0, FULL)).toBe(10);
    expect(storedAfterCharge(10, 5, 6, 1, EFF, 8, 0.45, FULL)).toBe(10);
  });

  it('takes nothing when frozen', () => {
    expect(storedAfterCharge(5, 5, 0, 1, EFF, 8, 0.45, FULL)).toBe(5);
  });
});
