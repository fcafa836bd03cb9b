/**
 * Snow on a plane after Marion, Schaefer, Caine and Sanchez, Solar Energy 97, 2013, 112-121. Its numbers are from
 * memory: slides where the air is warmer than irradiance/(−80 W/m²K), by 0.197·sin(tilt) of the slope in an hour.
 */
import { describe, expect, it } from 'vitest';
import { type SnowRule, snowLossInto } from '../../src/sim/sky/snow-cover.ts';

const MARION: SnowRule = {
  tiltDeg: 30,
  coverCm: 1,
  slideWPerM2K: 80,
  slidePerH: 0.197,
  meltMmPerKDay: 0,
  rowsUpSlope: 0,
};

/** One fall of 3 cm in the first hour, then steady weather, by hours. */
function afterFall(airC: number, poa: number, rule: Partial<SnowRule> = {}, hours = 30): Float64Array {
  const out = new Float64Array(hours);
  const fall = new Float64Array(hours);
  fall[0] = 3;
  const air = new Float64Array(hours).fill(airC);
  air[0] = -5;
  const light = new Float64Array(hours).fill(poa);
  light[0] = 0;
  snowLossInto(out, fall, air, light, 60, { ...MARION, ...rule });
  return out;
}

describe('snow on a plane', () => {
  it('covers it whole, and slides off by 0.197·sin(tilt) an hour: 0.0985 at 30°', () => {
    const lost = afterFall(1, 0);
    // the first centimetre of three takes a third of the hour
    expect(lost[0]).toBeCloseTo(2 / 3, 12);
    for (let hour = 0; hour < 10; hour++) expect(lost[1 + hour]).toBeCloseTo(1 - 0.0985 * (hour + 0.5), 12);
    // gone after 1/0.0985 = 10.152 h: the last 0.152 h hold 0.015 · 0.152/2
    expect(lost[11]).toBeCloseTo(0.015 ** 2 / 2 / 0.0985, 12);
    expect(lost[12]).toBe(0);
  });

  it('slides at −3 °C with more than 240 W/m² and not with less', () => {
    expect(afterFall(-3, 239)[20]).toBe(1);
    expect(afterFall(-3, 241)[20]).toBe(0);
  });

  it('never slides off a flat plane, and twice as fast off an upright one as off 30°', () => {
    expect(afterFall(5, 500, { tiltDeg: 0 })[29]).toBe(1);
    expect(afterFall(5, 500, { tiltDeg: 90 })[1]).toBeCloseTo(1 - 0.197 / 2, 12);
  });

  it('loses whole rows while snow lies on any of them', () => {
    // two rows: both lost until half the slope is bare, at 0.5/0.0985 = 5.076 h, then one
    const lost = afterFall(1, 0, { rowsUpSlope: 2 });
    expect(lost[4]).toBeCloseTo(1, 12);
    expect(lost[6]).toBeCloseTo(0.5 / 0.0985 - 5 + 0.5 * (6 - 0.5 / 0.0985), 9);
    expect(lost[8]).toBeCloseTo(0.5, 12);
  });
});
