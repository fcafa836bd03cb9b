import { irr, npv, pmt, pv } from 'financial';
import { describe, expect, it } from 'vitest';
import {
  capitalRecoveryFactor,
  netPresentValue,
  realRate,
  risingPresentValue,
  singlePresentValue,
  uniformPresentValue,
} from '../../src/scenarios/present-value.ts';

const near = (got: number, want: number, relative = 1e-6) =>
  expect(Math.abs(got / want - 1)).toBeLessThan(relative);

describe('present value', () => {
  // formulas of NIST Handbook 135; six digits derived, the handbook's printed 15-year values second hand
  it.each([
    [5, 0.862609, 4.579707, 0.21835457],
    [10, 0.744094, 8.530203, 0.11723051],
    [15, 0.641862, 11.937935, 0.08376658],
    [20, 0.553676, 14.877475, 0.06721571],
    [25, 0.477606, 17.413148, 0.05742787],
    [30, 0.411987, 19.600441, 0.05101926],
  ])('3 %%, %d years', (years, single, uniform, recovery) => {
    near(singlePresentValue(0.03, years), single, 2e-6);
    near(uniformPresentValue(0.03, years), uniform, 2e-6);
    near(capitalRecoveryFactor(0.03, years), recovery, 2e-6);
  });

  it('rising payments', () => {
    near(risingPresentValue(0.03, 0.02, 15), 13.886109);
    near(risingPresentValue(0.03, 0.02, 5), 4.85624);
    expect(risingPresentValue(0.03, 0.03, 12)).toBe(12);
    near(risingPresentValue(0.06, 0.03, 20), 14.998379);
  });

  it.each([
    [0.05, 10, 0.129505],
    [0.06, 20, 0.087185],
    [0.07, 25, 0.085811],
    [0.08, 20, 0.101852],
    [0.1, 10, 0.162745],
  ])('capital recovery %d over %d years', (rate, years, factor) =>
    near(capitalRecoveryFactor(rate, years), factor, 1e-5),
  );

  // NIST Handbook 135e2025, example 7-1 (second hand): life-cycle cost of two heating systems
  it('worked life-cycle costs', () => {
    expect(Math.round(1.05 * 1500 * 16.15 + 0.135 * 1200 * 15.48)).toBe(27_944);
    const [gas, electricity] = [16.15, 15.48];
    expect(Math.round(2000 + 1.05 * 1300 * gas + 0.135 * 1100 * electricity)).toBe(26_344);
  });

  it('real rate of 8 % nominal at 2.5 % inflation', () => near(realRate(0.08, 0.025), 0.05365854));

  // npm package financial 0.2.4, a port of a numerical library's money functions
  it('agrees with a financial library', () => {
    const flows = [-20_000, ...new Array<number>(20).fill(3000)];
    near(netPresentValue(0.06, flows), npv(0.06, flows));
    near(netPresentValue(0.06, flows), 14_409.7637);
    near(uniformPresentValue(0.03, 20), pv(0.03, 20, -1));
    near(capitalRecoveryFactor(0.06, 20) * 50_000, -pmt(0.06, 20, 50_000));
    expect(Math.abs(netPresentValue(irr(flows), flows))).toBeLessThan(1e-3);
  });
});
