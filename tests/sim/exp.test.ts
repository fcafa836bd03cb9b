import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decayedShare, expMatrix } from '../../src/sim/exp.ts';

describe('decayedShare', () => {
  it('equals -Math.expm1(-x) within 1e-15', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 800, noNaN: true }), (x) => {
        expect(Math.abs(decayedShare(x) + Math.expm1(-x))).toBeLessThan(1e-15);
      }),
      { numRuns: 2000 },
    );
  });

  it('keeps the digits of small x', () => {
    for (const x of [1e-14, 1e-8, 1e-4, 0.01]) {
      expect(Math.abs(decayedShare(x) / -Math.expm1(-x) - 1)).toBeLessThan(1e-15);
    }
  });

  it('is nothing at and below 0', () => {
    expect(decayedShare(0)).toBe(0);
    expect(decayedShare(-1)).toBe(0);
  });
});

describe('expMatrix', () => {
  it('of a diagonal is the exponentials of its entries', () => {
    const e = expMatrix([-1, 0, 0, -2.5], 2);
    expect(e[0]).toBeCloseTo(Math.exp(-1), 14);
    expect(e[3]).toBeCloseTo(Math.exp(-2.5), 14);
    expect(e[1]).toBe(0);
  });

  it('of a rotation is sine and cosine', () => {
    const e = expMatrix([0, -1.2, 1.2, 0], 2);
    expect(e[0]).toBeCloseTo(Math.cos(1.2), 14);
    expect(e[2]).toBeCloseTo(Math.sin(1.2), 14);
  });
});
