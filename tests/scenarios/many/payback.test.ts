import { nper } from 'financial';
import { describe, expect, it } from 'vitest';
import { paybackYears } from '../../../src/scenarios/many/payback.ts';
import { singlePresentValue, uniformPresentValue } from '../../../src/scenarios/present-value.ts';

const equal = new Array<number>(20).fill(3000);

describe('payback', () => {
  // derived: 20,000 more that save 3,000 a year, at 6 %: simple 6.667, discounted 8.7667 years
  it('of equal savings', () => {
    expect(paybackYears(20_000, equal, 0)).toBeCloseTo(20 / 3, 12);
    expect(paybackYears(20_000, equal, 0.06)).toBeCloseTo(8.7667, 4);
  });

  // npm package financial 0.2.4: number of payments
  it('agrees with a financial library', () => {
    for (const rate of [0.01, 0.03, 0.06, 0.12])
      expect(paybackYears(20_000, equal, rate)).toBeCloseTo(nper(rate, 3000, -20_000), 9);
  });

  // uniform present value of NIST Handbook 135: what n years save is worth UPV(n), so that n years pay it back
  it('takes whole years where the capital is worth as many', () => {
    for (const years of [1, 5, 15])
      expect(paybackYears(3000 * uniformPresentValue(0.03, years), equal, 0.03)).toBeCloseTo(years, 9);
  });

  it('waits where something must be bought meanwhile', () => {
    const savings = [4000, 4000, -8000, 4000, 4000, 4000, 4000];
    expect(paybackYears(10_000, savings, 0)).toBe(5.5);
    const worth = (years: number) =>
      savings.slice(0, years).reduce((sum, each, i) => sum + each * singlePresentValue(0.05, i + 1), 0);
    const found = paybackYears(10_000, savings, 0.05) ?? 0;
    expect([worth(5) < 10_000, worth(6) < 10_000, worth(7) >= 10_000]).toEqual([true, true, true]);
    const partOfSeventh = 4000 * uniformPresentValue(0.05, found - 6) * singlePresentValue(0.05, 6);
    expect(worth(6) + partOfSeventh).toBeCloseTo(10_000, 6);
  });

  it('goes by what a saving is worth today, not by its amount', () => {
    // 104 in a year are worth 99.05 at 5 %: the rest of the 100 comes out of the second, smaller year
    const found = paybackYears(100, [104, 10], 0.05) ?? 0;
    const rest = 100 - 104 * singlePresentValue(0.05, 1);
    expect(10 * uniformPresentValue(0.05, found - 1) * singlePresentValue(0.05, 1)).toBeCloseTo(rest, 9);
    expect(found).toBeGreaterThan(1.09);
  });

  it('never comes where the savings are too small, or worth less than the rate takes', () => {
    expect(paybackYears(20_000, [1000, 1000], 0)).toBeNull();
    expect(paybackYears(20_000, new Array<number>(500).fill(1000), 0.06)).toBeNull();
    expect(paybackYears(20_000, [-10, -10], 0.06)).toBeNull();
  });
});
