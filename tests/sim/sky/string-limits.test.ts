import { describe, expect, it } from 'vitest';
import { limitInput, stringVmpV } from '../../../src/sim/sky/string-limits.ts';

// invented modules: 31.5 V and 13 A at their best, ten in series, two strings; 8.19 kWp
const strings = { modulesInSeries: 10, strings: 2, vmpV: 31.5, impA: 13, vmpPerK: -0.0035 };
const NONE = { minV: 0, maxV: Number.POSITIVE_INFINITY };
const open = { ...NONE, maxInputA: Number.POSITIVE_INFINITY, ratedKw: Number.POSITIVE_INFINITY };

const limited = (kw: number, poa: number, cellC: number, input: Partial<typeof open>) => {
  const potential = Float64Array.of(kw);
  const losses = limitInput(potential, Float64Array.of(poa), Float64Array.of(cellC), strings, {
    ...open,
    ...input,
  });
  return { kw: potential[0], ...losses };
};

describe('voltage of a string at its largest power', () => {
  // straight in cell temperature, by hand: 315 V · (1 − 0.0035·(T − 25))
  it.each([
    [25, 315],
    [65, 270.9],
    [-15, 359.1],
  ])('at %d °C: %d V', (cellC, volts) => expect(stringVmpV(strings, cellC)).toBeCloseTo(volts, 9));
});

describe('the input of a converter', () => {
  it('without limits takes all', () => {
    expect(limited(7, 950, 60, {})).toEqual({
      kw: 7,
      belowWindow: 0,
      aboveWindow: 0,
      inputCurrent: 0,
      inputPower: 0,
    });
  });

  it('takes nothing where heat brings the strings below its window', () => {
    expect(limited(6, 900, 65, { minV: 271 })).toMatchObject({ kw: 0, belowWindow: 6 });
    expect(limited(6, 900, 65, { minV: 270 })).toMatchObject({ kw: 6, belowWindow: 0 });
  });

  it('holds cold strings at its highest voltage: power falls with it', () => {
    const { kw, aboveWindow } = limited(8, 900, -15, { maxV: 300 });
    expect(kw).toBeCloseTo((8 * 300) / 359.1, 9);
    expect(aboveWindow).toBeCloseTo(8 - (8 * 300) / 359.1, 9);
  });

  it('cuts current, then power', () => {
    // 2 strings · 13 A · 0.9 = 23.4 A against 20 A: 20/23.4 of 7 kW
    const { kw, inputCurrent, inputPower } = limited(7, 900, 40, { maxInputA: 20, ratedKw: 5 });
    expect(inputCurrent).toBeCloseTo(7 - (7 * 20) / 23.4, 9);
    expect(inputPower).toBeCloseTo((7 * 20) / 23.4 - 5, 9);
    expect(kw).toBe(5);
  });

  it('loses no energy from the account', () => {
    const potential = Float64Array.from({ length: 200 }, (_, i) => (i % 20) / 2);
    const before = potential.reduce((sum, kw) => sum + kw, 0);
    const poa = Float64Array.from({ length: 200 }, (_, i) => (i % 20) * 60);
    const cells = Float64Array.from({ length: 200 }, (_, i) => ((i * 7) % 110) - 25);
    const losses = limitInput(potential, poa, cells, strings, {
      minV: 260,
      maxV: 340,
      maxInputA: 24,
      ratedKw: 7.5,
    });
    const after = potential.reduce((sum, kw) => sum + kw, 0);
    const lost = losses.belowWindow + losses.aboveWindow + losses.inputCurrent + losses.inputPower;
    for (const part of Object.values(losses)) expect(part).toBeGreaterThan(0);
    expect(after + lost).toBeCloseTo(before, 9);
  });

  it('limits only the power where the strings are not known', () => {
    const potential = Float64Array.of(3, 9);
    const losses = limitInput(potential, Float64Array.of(300, 900), null, null, {
      ...open,
      minV: 500,
      ratedKw: 6,
    });
    expect([...potential]).toEqual([3, 6]);
    expect(losses).toEqual({ belowWindow: 0, aboveWindow: 0, inputCurrent: 0, inputPower: 3 });
  });
});
