import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { expMatrix } from '../../src/sim/exp.ts';
import {
  kineticCapacityKwh,
  kineticMostChargeKw,
  kineticMostDischargeKw,
  kineticStepInto,
} from '../../src/sim/wear/kinetic-battery.ts';

type Wells = [atHand: number, bound: number];

function step([atHand, bound]: Wells, draw: number, dt: number, c: number, k: number): Wells {
  const out = new Float64Array(2);
  kineticStepInto(out, atHand, bound, draw, dt, c, k);
  return [out[0], out[1]];
}

/** dq1/dt = −I + k·(c·q − q1), dq2/dt = −k·(c·q − q1) by the fourth-order Runge-Kutta rule. */
function byFineSteps(wells: Wells, draw: number, dt: number, c: number, k: number, steps: number): Wells {
  const slope = ([a, b]: Wells): Wells => {
    const flow = k * (c * (a + b) - a);
    return [flow - draw, -flow];
  };
  const h = dt / steps;
  let [a, b] = wells;
  for (let i = 0; i < steps; i++) {
    const s1 = slope([a, b]);
    const s2 = slope([a + (h / 2) * s1[0], b + (h / 2) * s1[1]]);
    const s3 = slope([a + (h / 2) * s2[0], b + (h / 2) * s2[1]]);
    const s4 = slope([a + h * s3[0], b + h * s3[1]]);
    a += (h / 6) * (s1[0] + 2 * s2[0] + 2 * s3[0] + s4[0]);
    b += (h / 6) * (s1[1] + 2 * s2[1] + 2 * s3[1] + s4[1]);
  }
  return [a, b];
}

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const share = between(0.05, 0.95);
const rate = between(0.01, 5);
const hours = between(1 / 60, 10);
/** charge at hand and bound, draw, time, c and k */
const anyStep = [between(0, 60), between(0, 40), between(-30, 30), hours, share, rate] as const;
const C = 0.6;
const K = 0.5;

// Manwell and McGowan, Solar Energy 50, 1993 (equations seen in code that quotes the paper). Values derived from
// them for 100 Ah full, c 0.6, k 0.5 per hour; the numbers are the same in Ah and A as in kWh and kW.
describe('kinetic battery model', () => {
  it('after an hour at 20, and two hours of rest', () => {
    const [atHand, bound] = step([60, 40], 20, 1, C, K);
    expect(Math.abs(atHand - 41.704491)).toBeLessThan(1e-6);
    expect(Math.abs(bound - 38.295509)).toBeLessThan(1e-6);
    const rested = step([atHand, bound], 0, 2, C, K);
    expect(Math.abs(rested[0] - 45.684012)).toBeLessThan(1e-6);
    expect(Math.abs(rested[1] - 34.315988)).toBeLessThan(1e-6);
    expect(rested[0] + rested[1]).toBeCloseTo(80, 12);
  });

  it.each([
    [0.5, 62.8984],
    [1, 65.5899],
    [2, 70.3525],
    [5, 80.3357],
    [10, 88.3053],
    [20, 93.7503],
  ])('gives in %d h %d', (time, capacity) => {
    expect(Math.abs(kineticCapacityKwh(100, time, C, K) - capacity)).toBeLessThan(1e-4);
  });

  it('gives 65.58987 for an hour, and then the well at hand is empty', () => {
    const most = kineticMostDischargeKw(60, 40, 1, C, K);
    expect(Math.abs(most - 65.58987)).toBeLessThan(1e-5);
    expect(Math.abs(step([60, 40], most, 1, C, K)[0])).toBeLessThan(1e-12);
  });

  it('gives c of the capacity at once and all of it in the end', () => {
    expect(kineticCapacityKwh(100, 1e-6, C, K)).toBeCloseTo(60, 4);
    expect(kineticCapacityKwh(100, 1e6, C, K)).toBeCloseTo(100, 3);
  });

  // the bound charge as the paper gives it: q2 = q20·e + q0·(1 − c)·(1 − e) − I·(1 − c)·r
  it('has the bound charge of the closed form', () => {
    fc.assert(
      fc.property(...anyStep, (a, b, draw, t, c, k) => {
        const e = Math.exp(-k * t);
        const r = (k * t - 1 + e) / k;
        const bound = b * e + (a + b) * (1 - c) * (1 - e) - draw * (1 - c) * r;
        expect(Math.abs(step([a, b], draw, t, c, k)[1] - bound)).toBeLessThan(1e-10);
      }),
    );
  });

  it('agrees with fine steps of the equations', () => {
    fc.assert(
      fc.property(...anyStep, (a, b, draw, t, c, k) => {
        const fine = byFineSteps([a, b], draw, t, c, k, 2000);
        const exact = step([a, b], draw, t, c, k);
        expect(Math.abs(exact[0] - fine[0])).toBeLessThan(1e-8);
        expect(Math.abs(exact[1] - fine[1])).toBeLessThan(1e-8);
      }),
    );
  });

  it('agrees with the exponential of its matrix', () => {
    fc.assert(
      fc.property(...anyStep, (a, b, draw, t, c, k) => {
        const flow = [-k * (1 - c) * t, k * c * t, -draw * t, k * (1 - c) * t, -k * c * t, 0, 0, 0, 0];
        const m = expMatrix(flow, 3);
        const exact = step([a, b], draw, t, c, k);
        expect(Math.abs(exact[0] - (m[0] * a + m[1] * b + m[2]))).toBeLessThan(1e-9);
        expect(Math.abs(exact[1] - (m[3] * a + m[4] * b + m[5]))).toBeLessThan(1e-9);
      }),
    );
  });

  it('does not depend on how a time is split', () => {
    fc.assert(
      fc.property(between(-30, 30), hours, between(0, 1), share, rate, (draw, t, part, c, k) => {
        const once = step([50, 30], draw, t, c, k);
        const twice = step(step([50, 30], draw, t * part, c, k), draw, t * (1 - part), c, k);
        expect(Math.abs(once[0] - twice[0])).toBeLessThan(1e-9);
        expect(Math.abs(once[1] - twice[1])).toBeLessThan(1e-9);
      }),
    );
  });

  it('at its limits ends empty or full, and is neither overdrawn nor overfull on the way', () => {
    // both wells anywhere within their own shares of 100
    fc.assert(
      fc.property(between(0, 1), between(0, 1), hours, share, rate, (x, y, t, c, k) => {
        const wells: Wells = [x * c * 100, y * (1 - c) * 100];
        const draw = kineticMostDischargeKw(...wells, t, c, k);
        const charge = kineticMostChargeKw(...wells, 100, t, c, k);
        expect(Math.abs(step(wells, draw, t, c, k)[0])).toBeLessThan(1e-9);
        expect(Math.abs(step(wells, -charge, t, c, k)[0] - 100 * c)).toBeLessThan(1e-9);
        for (let part = 0.1; part < 1; part += 0.1) {
          const drawn = step(wells, draw, t * part, c, k);
          const charged = step(wells, -charge, t * part, c, k);
          expect(Math.min(...drawn)).toBeGreaterThan(-1e-9);
          expect(charged[0]).toBeLessThan(100 * c + 1e-9);
          expect(charged[1]).toBeLessThan(100 * (1 - c) + 1e-9);
        }
      }),
    );
  });

  it('takes nothing when full and gives nothing when empty', () => {
    expect(kineticMostChargeKw(60, 40, 100, 1, C, K)).toBeLessThan(1e-12);
    expect(kineticMostDischargeKw(0, 0, 1, C, K)).toBe(0);
  });
});
