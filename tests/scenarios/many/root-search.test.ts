import { describe, expect, it } from 'vitest';
import { findRoots } from '../../../src/scenarios/many/root-search.ts';

function rootsOf(f: (x: number) => number, range = {}) {
  const search = findRoots({ from: 0, to: 10, intervals: 20, tolerance: 1e-12, width: 1e-13, ...range });
  let tries = 0;
  let next = search.next();
  while (!next.done) {
    tries++;
    next = search.next(f(next.value));
  }
  return { ...next.value, tries };
}

describe('roots', () => {
  it('of a straight line, in one try beyond the samples', () => {
    const { roots, tries } = rootsOf((x) => 3 * x - 10);
    expect(roots).toHaveLength(1);
    expect(roots[0].at).toBeCloseTo(10 / 3, 12);
    expect(roots[0].jump).toBeNull();
    expect(tries).toBe(22);
  });

  it('of a cubic with three, rising', () => {
    const { roots } = rootsOf((x) => (x - 1.1) * (x - 4.3) * (x - 7.7));
    expect(roots.map(({ at }) => at)).toEqual([
      expect.closeTo(1.1, 10),
      expect.closeTo(4.3, 10),
      expect.closeTo(7.7, 10),
    ]);
  });

  it('of curves on which the secant creeps, in few tries', () => {
    // closed forms: e^x = 20000 at ln 20000; x^9 = 2 at the ninth root of 2
    const growth = rootsOf((x) => Math.exp(x) - 20_000, { tolerance: 1e-9 });
    expect(growth.roots[0].at).toBeCloseTo(Math.log(20_000), 12);
    const flat = rootsOf((x) => x ** 9 - 2, { intervals: 1, tolerance: 1e-11 });
    expect(flat.roots[0].at).toBeCloseTo(2 ** (1 / 9), 10);
    // halving alone would take 43 more than the 2 samples to come as near
    expect(flat.tries).toBeLessThan(25);
    expect(growth.tries).toBeLessThan(31);
  });

  it('that lie on a sample, at the ends too, once each', () => {
    expect(rootsOf((x) => x * (x - 5) * (x - 10)).roots.map(({ at }) => at)).toEqual([0, 5, 10]);
  });

  it('are none where the sign stays', () => {
    expect(rootsOf((x) => x + 1).roots).toEqual([]);
  });

  it('tells a jump over nothing from a root, with the values on its two sides', () => {
    const { roots } = rootsOf((x) => (x < Math.PI ? -2 - x / 1e6 : 5));
    expect(roots).toHaveLength(1);
    expect(Math.abs(roots[0].at - Math.PI)).toBeLessThan(1e-12);
    expect(roots[0].jump?.below).toBeCloseTo(-2, 5);
    expect(roots[0].jump?.above).toBe(5);
  });
});
