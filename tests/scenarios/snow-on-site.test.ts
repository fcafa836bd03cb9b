import { describe, expect, it } from 'vitest';
import { type Clock, makeCalendar, makeClock } from '../../src/scenarios/clock.ts';
import { snowOnSite } from '../../src/scenarios/snow-on-site.ts';
import type { Weather } from '../../src/scenarios/weather-files.ts';
import { sum, winter, winterSaid } from './winter-site.ts';

const offered = (wanted: Parameters<typeof winter>[0]) =>
  winter(wanted).result.inputs.dcArrayKw as Float64Array;
const day = (values: Float64Array, from: number, to = from + 1) => sum(values.subarray(from * 24, to * 24));
const plain = offered({});

describe('snow on the arrays of a site', () => {
  it('by stated dates: nothing before, nothing or little after, told by month', () => {
    const { result, said } = winter({ sky: 'snow: { falls: [{ date: 2025-01-11, cm: 12 }] }' });
    expect(said.filter((sentence) => sentence.includes('snow'))).toEqual([]);
    const kw = result.inputs.dcArrayKw as Float64Array;
    expect([...kw.subarray(0, 240)]).toEqual([...plain.subarray(0, 240)]);
    // half a centimetre an hour: covered after two hours, and it is too cold to slide before the sun is up
    expect(day(kw, 10)).toBeLessThan(0.6 * day(plain, 10));
    expect(day(kw, 20, 59)).toBe(day(plain, 20, 59));
    const [roof] = result.yields;
    expect(roof.lostKwh.snow).toHaveLength(2);
    expect(roof.lostKwh.snow[0]).toBeCloseTo(sum(plain) - sum(kw), 9);
    expect(roof.lostKwh.snow[1]).toBe(0);
  });

  it('spreads a stated fall evenly over its local day, one of 23 hours too', () => {
    // clocks go forward in Berlin on 30 March 2025; four days from midnight of the 28th
    const startS = Date.UTC(2025, 2, 27, 23) / 1000;
    const clock = makeClock('Europe/Berlin', startS, startS + 4 * 86400) as Clock;
    const calendar = makeCalendar(clock, startS, 30, 4 * 48);
    const falls = [
      { date: '2025-03-29', cm: 12 },
      { date: '2025-03-30', cm: 11.5 },
    ];
    const rule = {
      allSnowC: 0,
      allRainC: 2,
      coverCm: 1,
      slideWPerM2K: 80,
      slidePerH: 0.197,
      meltMmPerKDay: 4,
    };
    const fall = snowOnSite({ ...rule, falls }, {} as Weather, calendar, 30) as Float64Array;
    expect(sum(fall.subarray(0, 48))).toBe(0);
    for (const rate of fall.subarray(48, 48 + 48 + 46)) expect(rate).toBeCloseTo(0.5, 12);
    expect(sum(fall.subarray(142))).toBe(0);
  });

  it('by the precipitation of the weather file, where it is cold', () => {
    const kw = offered({ weather: 'precipitation: rain', sky: 'snow: {}' });
    // 7.5 mm of water before dawn at −8 °C are 7.5 cm of snow
    expect(day(kw, 0)).toBeLessThan(0.6 * day(plain, 0));
    expect(day(kw, 10)).toBe(day(plain, 10));
    // the same water as rain
    const mild = offered({ weather: 'precipitation: rain', sky: 'snow: { allSnowC: -10, allRainC: -9 }' });
    expect([...mild]).toEqual([...plain]);
  });

  it('by its fresh snow, which counts before precipitation', () => {
    const kw = offered({ weather: 'precipitation: rain, snowfall: snow', sky: 'snow: {}' });
    expect(day(kw, 0)).toBe(day(plain, 0));
    expect(day(kw, 10)).toBeLessThan(0.6 * day(plain, 10));
  });

  it('stated falls count before both', () => {
    const sky = 'snow: { falls: [{ date: 2025-01-21, cm: 5 }] }';
    const kw = offered({ weather: 'precipitation: rain, snowfall: snow', sky });
    expect([...kw]).toEqual([...offered({ sky })]);
  });

  it('without snow in the year gives the same bits as without the key', () => {
    expect([...offered({ weather: 'snowfall: dry', sky: 'snow: {}' })]).toEqual([...plain]);
    const { result } = winter({ weather: 'snowfall: dry', sky: 'snow: {}' });
    expect(JSON.stringify(result.ledger)).toBe(JSON.stringify(winter().result.ledger));
  });

  it('slides sooner off a steep array, and later row by row', () => {
    const sky = 'snow: { falls: [{ date: 2025-01-11, cm: 12 }] }';
    const lostFrom = (array: string, tilt: string) =>
      sum(
        winter({ sky, array, instead: [['tiltDeg: 35', `tiltDeg: ${tilt}`]] }).result.yields[0].lostKwh.snow,
      );
    expect(lostFrom('', '70')).toBeLessThan(lostFrom('', '35'));
    expect(lostFrom('rowsUpSlope: 2', '35')).toBeGreaterThan(lostFrom('', '35'));
  });

  it('loses about the same in steps of five minutes', () => {
    const sky = 'snow: { falls: [{ date: 2025-01-11, cm: 12 }] }';
    const lost = (stepMin: number) => sum(winter({ sky, stepMin }).result.yields[0].lostKwh.snow);
    expect(Math.abs(lost(5) / lost(60) - 1)).toBeLessThan(0.05);
  });

  it('tells what is missing or cannot be', () => {
    expect(winterSaid({ sky: 'snow: {}' })).toMatchSnapshot();
    expect(
      winterSaid({
        sky: 'snow: { allSnowC: 3, falls: [{ date: 2024-12-31, cm: 5 }, { date: 2025-02-30, cm: 500 }] }',
      }),
    ).toMatchSnapshot();
    expect(
      winterSaid({ sky: 'snow: { allSnowC: 3, falls: [{ date: 2024-12-31, cm: 5 }] }' }),
    ).toMatchSnapshot();
  });
});
