import { describe, expect, it } from 'vitest';
import { arrayPowerKw } from '../../src/sim/sky/array-power.ts';
import { cellTempC, moduleTempC } from '../../src/sim/sky/cell-temperature.ts';

describe('cells', () => {
  // Ross 1981, published test expectations (seen, recomputed)
  it.each([
    [1000, 30, 50, 67.5],
    [800, 20, 50, 50],
    [700, 30, 50, 56.25],
    [600, 40, 50, 62.5],
  ])('NOCT: %d W/m²', (poa, air, noct, cell) => expect(cellTempC(air, poa, noct)).toBeCloseTo(cell, 9));

  // Faiman 2008 / IEC 61853-2, published test expectations (seen, recomputed), to 0.001 K
  it('Faiman', () => {
    expect(Math.abs(moduleTempC(20, 900, 5) - 35.203)).toBeLessThan(0.001);
    expect(Math.abs(moduleTempC(20, 900, 5, 22, 6) - 37.308)).toBeLessThan(0.001);
    expect(Math.abs(moduleTempC(10, 500, 5) - 18.446)).toBeLessThan(0.001);
  });

  // standard test condition arithmetic (derived)
  it('power', () => {
    expect(arrayPowerKw(1, 800, 50, -0.004)).toBeCloseTo(0.72, 12);
    expect(arrayPowerKw(1, 1000, 67.5, -0.004)).toBeCloseTo(0.83, 12);
    expect(arrayPowerKw(1, 1000, 5, -0.004)).toBeCloseTo(1.08, 12);
  });
});
