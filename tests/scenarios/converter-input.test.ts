import { describe, expect, it } from 'vitest';
import { ARRAY_LOSSES } from '../../src/scenarios/array-yields.ts';
import { sum, winter, winterSaid } from './winter-site.ts';

// invented modules, twelve in one string: 12 · 32 V · 13 A = 4.99 kWp
const STRINGS = 'strings: { modulesInSeries: 12, strings: 1, vocV: 38, vmpV: 32, iscA: 14, impA: 13 }';
const kwOf = (array: string) => winter({ array }).result.inputs.dcArrayKw as Float64Array;
const yieldOf = (array: string) => winter({ array }).result.yields[0];
const plain = kwOf('');

describe('strings and the input of their controller', () => {
  it('wide limits give the same bits as none', () => {
    expect([...kwOf(`${STRINGS}, controller: { minV: 100, maxV: 600, maxInputA: 30, ratedKw: 10 }`)]).toEqual(
      [...plain],
    );
  });

  it('a window above the strings gives nothing, and says so', () => {
    const told = yieldOf(`${STRINGS}, controller: { minV: 500, maxV: 600 }`);
    expect(sum(told.offeredKwh)).toBe(0);
    expect(sum(told.lostKwh.belowWindow)).toBeGreaterThan(0.99 * sum(plain));
  });

  it('cold strings are held at the highest voltage followed, current and power cut', () => {
    const array = `${STRINGS}, controller: { minV: 1, maxV: 600, trackMaxV: 400, maxInputA: 4, ratedKw: 1.2 }`;
    const { lostKwh } = yieldOf(array);
    for (const loss of ['aboveWindow', 'inputCurrent', 'inputPower'] as const)
      expect(sum(lostKwh[loss])).toBeGreaterThan(0);
    // 97 % of 1.2 kW
    expect(Math.max(...kwOf(array))).toBeCloseTo(1.2 * 0.97, 9);
  });

  it('what is offered and all losses together are what an unlimited array gives', () => {
    const sky =
      'horizon: [{ azimuthDeg: 180, elevationDeg: 8 }], snow: { falls: [{ date: 2025-01-20, cm: 9 }] }';
    const array = `${STRINGS}, controller: { minV: 390, maxV: 600, trackMaxV: 402, maxInputA: 7, ratedKw: 2.1 }`;
    const [roof] = winter({ sky, array, instead: [['controllerA: 120', 'controllerA: 25']] }).result.yields;
    const lost = ARRAY_LOSSES.map((loss) => sum(roof.lostKwh[loss]));
    for (const kwh of lost) expect(kwh).toBeGreaterThan(0);
    // without any limit the hundred and twenty amperes of the plain site are not reached either
    expect(Math.max(...plain)).toBeLessThan((120 * 51.2) / 1000);
    expect(sum(roof.offeredKwh) + sum(lost)).toBeCloseTo(sum(plain), 6);
  });

  it('tells what contradicts', () => {
    expect(
      winterSaid({ array: `${STRINGS}, controller: { minV: 700, maxV: 600, trackMaxV: 650 }` }),
    ).toMatchSnapshot();
    expect(winterSaid({ array: 'controller: { minV: 100, maxV: 500, ratedKw: 4 }' })).toMatchSnapshot();
  });
});
