import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type SnowRule, snowLossInto } from '../../../src/sim/sky/snow-cover.ts';

const RULE: SnowRule = {
  tiltDeg: 40,
  coverCm: 1,
  slideWPerM2K: 80,
  slidePerH: 0.197,
  meltMmPerKDay: 4,
  rowsUpSlope: 0,
};

function lossOf(fall: number[], air: number[], poa: number[], stepMin: number, rule = RULE): Float64Array {
  const out = new Float64Array(fall.length);
  snowLossInto(out, Float64Array.from(fall), Float64Array.from(air), Float64Array.from(poa), stepMin, rule);
  return out;
}

const steady = (value: number, length: number) => new Array<number>(length).fill(value);
const repeated = (values: readonly number[], times: number) =>
  values.flatMap((value) => steady(value, times));

describe('snow on an array', () => {
  it('without snow loses nothing, in any weather', () => {
    const lost = lossOf(steady(0, 48), steady(-8, 48), steady(300, 48), 60);
    expect(lost.every((share) => share === 0)).toBe(true);
  });

  it('light falls add up within a day, and are forgotten after it', () => {
    const fall = steady(0, 60);
    fall[0] = 0.6;
    fall[20] = 0.6;
    expect(lossOf(fall, steady(-5, 60), steady(0, 60), 60)[30]).toBe(1);
    const apart = steady(0, 60);
    apart[0] = 0.6;
    apart[24] = 0.6;
    expect(lossOf(apart, steady(-5, 60), steady(0, 60), 60).every((share) => share === 0)).toBe(true);
  });

  it('what has covered it does not count again once it has slid off', () => {
    const fall = steady(0, 72);
    fall[0] = 1.4;
    fall[20] = 0.5;
    const air = steady(0.001, 72);
    // 0.4 cm left of the first fall and 0.5 cm of the second are no centimetre
    const lost = lossOf(fall, air, steady(0, 72), 60, { ...RULE, meltMmPerKDay: 0 });
    expect(lost[1]).toBeGreaterThan(0.9);
    expect(lost[20]).toBe(0);
    fall[20] = 0.7;
    expect(lossOf(fall, air, steady(0, 72), 60, { ...RULE, meltMmPerKDay: 0 })[21]).toBeGreaterThan(0.9);
  });

  it('is bare once the snow has melted from open ground: 4 mm of water a day and kelvin', () => {
    const fall = steady(0, 30);
    fall[0] = 2;
    const air = steady(3, 30);
    air[0] = -2;
    // 2 cm are 2 mm of water, 3 K melt 12 mm a day: 4 h; a flat plane would not shed any of it
    const lost = lossOf(fall, air, steady(0, 30), 60, { ...RULE, tiltDeg: 0 });
    expect([...lost.subarray(1, 7)].map((share) => share.toFixed(9))).toEqual([
      '1.000000000',
      '1.000000000',
      '1.000000000',
      '1.000000000',
      '0.000000000',
      '0.000000000',
    ]);
    // a part of a step: 2.5 K melt the 2 mm in 4.8 h
    const cooler = air.map((value) => (value > 0 ? 2.5 : value));
    expect(lossOf(fall, cooler, steady(0, 30), 60, { ...RULE, tiltDeg: 0 })[5]).toBeCloseTo(0.8, 9);
  });

  it('says the same in steps of an hour, ten minutes and a minute', () => {
    const hour = fc.record({
      // sums that do not come near a whole centimetre, at which a plane is covered or not
      fall: fc.oneof(fc.constant(0), fc.integer({ min: 1, max: 15 })).map((n) => 0.1317 * n),
      air: fc.double({ min: -8, max: 6, noNaN: true }),
      poa: fc.double({ min: 0, max: 500, noNaN: true }),
    });
    fc.assert(
      fc.property(
        fc.array(hour, { minLength: 40, maxLength: 60 }),
        fc.constantFrom(0, 1, 3),
        (drawn, rows) => {
          // no two falls a day apart: at the end of a day the sum of light falls is good to the step
          const mayFall = (i: number) => Math.floor((i % 24) / 8) === Math.floor(i / 24);
          const hours = drawn.map((one, i) => (mayFall(i) ? one : { ...one, fall: 0 }));
          // while it falls it is cold and dark: within such a step nothing slides
          const air = hours.map(({ fall, air }) => (fall > 0 ? -1 : air));
          const poa = hours.map(({ fall, poa }) => (fall > 0 ? 0 : poa));
          const fall = hours.map(({ fall }) => fall);
          const rule = { ...RULE, rowsUpSlope: rows };
          const hourly = lossOf(fall, air, poa, 60, rule);
          for (const per of [6, 60]) {
            const fine = lossOf(repeated(fall, per), repeated(air, per), repeated(poa, per), 60 / per, rule);
            for (let i = 0; i < hourly.length; i++) {
              const mean = fine.subarray(i * per, (i + 1) * per).reduce((sum, share) => sum + share, 0) / per;
              expect(mean).toBeCloseTo(hourly[i], 6);
            }
          }
        },
      ),
      { numRuns: 150 },
    );
  });

  it('stays within 0 and 1', () => {
    const numbers = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 150, maxLength: 150 });
    fc.assert(
      fc.property(numbers, numbers, numbers, fc.constantFrom(0, 2), (fall, air, poa, rowsUpSlope) => {
        const lost = lossOf(
          fall.map((value) => Math.max(0, value - 0.7)),
          air.map((value) => 12 * value - 6),
          poa.map((value) => 800 * value),
          60,
          { ...RULE, rowsUpSlope },
        );
        expect(lost.every((share) => share >= 0 && share <= 1)).toBe(true);
      }),
      { numRuns: 200 },
    );
  });
});
