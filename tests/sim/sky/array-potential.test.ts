import { describe, expect, it } from 'vitest';
import {
  addBehindConverter,
  arrayCellsInto,
  arrayPotentialKwInto,
} from '../../../src/sim/sky/array-potential.ts';

const spec = { ratedKw: 6, noctC: 45, gammaPerK: -0.004, soilingFrac: 0.03, wiringFrac: 0.02 };

describe('array potential', () => {
  const poa = Float64Array.of(0, 500, 1000);
  const air = Float64Array.of(5, 20, 35);
  const out = new Float64Array(3);

  it('goes through dirt, cell temperature and wiring (worked by hand)', () => {
    arrayPotentialKwInto(out, poa, air, null, spec);
    expect(out[0]).toBe(0);
    // 485 W/m² through the dirt; cells at 20 + 25/800·485 = 35.15625 °C; 6·0.485·(1 − 0.004·10.15625)·0.98
    expect(out[1]).toBeCloseTo(2.735945625, 9);
  });

  it('cools by the wind where its loss and the wind are known', () => {
    const windy = { ...spec, windLoss: { u0: 25, u1: 6.84 } };
    arrayPotentialKwInto(out, poa, air, Float64Array.of(5, 5, 5), windy);
    // cells at 20 + 485/(25 + 34.2) = 28.192567… °C
    expect(out[1]).toBeCloseTo(6 * 0.485 * (1 - 0.004 * (20 + 485 / 59.2 - 25)) * 0.98, 12);
    const calm = new Float64Array(3);
    arrayPotentialKwInto(calm, poa, air, Float64Array.of(0, 0, 0), windy);
    expect(calm[2]).toBeLessThan(out[2]);
    const unknown = new Float64Array(3);
    const byNoct = new Float64Array(3);
    arrayPotentialKwInto(unknown, poa, air, null, windy);
    arrayPotentialKwInto(byNoct, poa, air, null, spec);
    expect(unknown).toEqual(byNoct);
  });
});

describe('soiling that changes', () => {
  const poa = Float64Array.of(400, 800, 1000);
  const air = Float64Array.of(5, 20, 35);
  const out = new Float64Array(3);

  it('counts each step with its own, and the same all through as one number', () => {
    const one = new Float64Array(3);
    arrayPotentialKwInto(one, poa, air, null, spec);
    arrayPotentialKwInto(out, poa, air, null, { ...spec, soilingByStep: Float64Array.of(0.03, 0.03, 0.03) });
    expect([...out]).toEqual([...one]);
    arrayPotentialKwInto(out, poa, air, null, { ...spec, soilingByStep: Float64Array.of(0.03, 0, 0.1) });
    expect(out[0]).toBe(one[0]);
    // clean cells at 20 + 25/800·800 = 45 °C: 6·0.8·(1 − 0.004·20)·0.98
    expect(out[1]).toBeCloseTo(6 * 0.8 * 0.92 * 0.98, 12);
    expect(out[2]).toBeLessThan(one[2]);
  });

  it('warms the cells by what passes it', () => {
    arrayCellsInto(out, poa, air, null, { ...spec, soilingByStep: Float64Array.of(0, 0.5, 0) });
    expect([...out]).toEqual([5 + 12.5, 20 + 12.5, 35 + 31.25]);
  });
});

describe('converters', () => {
  it('a charge controller adds at most current times voltage, and says what it cut off', () => {
    const total = Float64Array.of(1, 1, 1);
    // 80 A at 50 V: 4 kW
    const clipped = addBehindConverter(total, Float64Array.of(1, 4, 6), 0.95, (80 * 50) / 1000);
    expect([...total]).toEqual([1.95, 4.8, 5]);
    expect(clipped).toBeCloseTo(1.7, 12);
  });
});
