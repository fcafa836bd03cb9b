import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dcDrawKw, deratingFactor, shareWithin } from '../../src/sim/inverter.ts';

describe('deratingFactor', () => {
  it('is all to the knee, half at 60 °C, and none beyond', () => {
    const slope = 0.5 / (60 - 40);
    expect([20, 40, 50, 60, 70, 80, 90].map((c) => deratingFactor(c, 40, slope))).toEqual([
      1, 1, 0.75, 0.5, 0.25, 0, 0,
    ]);
  });
});

describe('dcDrawKw', () => {
  it('adds linear and quadratic loss', () => {
    expect(dcDrawKw(10, 0.02, 0.001)).toBeCloseTo(10 + 0.2 + 0.1, 12);
    expect(dcDrawKw(0, 0.02, 0.001)).toBe(0);
  });
});

describe('shareWithin', () => {
  it('shrinks three phases to exactly what is there', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0.01, max: 20, noNaN: true }), { minLength: 3, maxLength: 3 }),
        fc.double({ min: 0.001, max: 100, noNaN: true }),
        fc.double({ min: 0, max: 0.05, noNaN: true }),
        (loads, available, quadratic) => {
          const sum = loads.reduce((a, b) => a + b, 0);
          const squares = loads.reduce((a, b) => a + b * b, 0);
          const share = shareWithin(available, sum, squares, 0.03, quadratic);
          const draw = loads.reduce((total, kw) => total + dcDrawKw(kw * share, 0.03, quadratic), 0);
          if (share < 1) expect(Math.abs(draw / available - 1)).toBeLessThan(1e-12);
          else expect(draw).toBeLessThanOrEqual(available * (1 + 1e-12));
        },
      ),
    );
  });
});
