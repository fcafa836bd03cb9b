import { describe, expect, it } from 'vitest';
import { makeCalendar, makeClock } from '../../../src/scenarios/clock.ts';
import { sameDays } from '../../../src/scenarios/visit/same-days.ts';
import { farmGround, farmTruth, recorded } from './logged-farm.ts';

const NONE = { socFrac: 0, kw: 0, c: 0, l: 0, wPerM2: 0 };

const sum = (values: ArrayLike<number>) => Array.from(values).reduce((all, one) => all + one, 0);

describe('a site and its log on one axis', () => {
  const truth = farmTruth(30, [{ fromDay: 0, changes: {} }]);
  const record = recorded(truth, { gapsADay: 0, noiseFrac: 0, noiseK: 0, quantum: NONE });

  it('has the designed load and arrays of the days of the log', () => {
    const { designed, designedArraysKw } = farmGround(record);
    expect(designed.count).toBe(30 * 288);
    const { load1Kw } = record.columns;
    for (const [i, kw] of (load1Kw as Float64Array).entries())
      expect(kw).toBeCloseTo(designed.loadKw[0][i], 9);
    const alone = sum(designedArraysKw.barn) + sum(designedArraysKw.shed);
    expect(alone).toBeCloseTo(sum(designed.dcArrayKw ?? []), 6);
  });

  it('has what the arrays should give with the sun of the log: here the designed one', () => {
    const { designedArraysKw, sunArraysKw } = farmGround(record);
    expect(sum(sunArraysKw?.barn ?? [])).toBeCloseTo(sum(designedArraysKw.barn), 6);
  });

  it('knows no array where the sun was not recorded', () => {
    const holes = recorded(truth, { gapsADay: 2 });
    const { sunArraysKw } = farmGround(holes);
    const { sunWPerM2 } = holes.columns;
    for (const [i, kw] of (sunArraysKw?.shed ?? []).entries())
      expect(Number.isNaN(kw)).toBe(Number.isNaN(sunWPerM2?.[i]));
  });
});

describe('days that stand for those of a log', () => {
  const clock = makeClock('+01:00', 0, 4e9);
  if (clock === null) throw new Error('no clock');
  const at = (date: string) => Date.parse(`${date}T00:00+01:00`) / 1000;
  const designed = { startS: at('2025-01-01'), stepMin: 60, count: 365 * 24 };
  const days = makeCalendar(clock, designed.startS, 60, designed.count);
  const of = (date: string, count = 24) =>
    sameDays(designed, makeCalendar(clock, at(date), 60, count), days, PERIOD, 'site.yaml');

  it('have the weekday and time of day, and are at most three days away', () => {
    // 15 June 2026 is a Monday, as is 16 June 2025
    const { step, issues } = of('2026-06-15');
    expect(issues).toEqual([]);
    const first = (at('2025-06-16') - designed.startS) / 3600;
    expect(Array.from(step)).toEqual(Array.from({ length: 24 }, (_, hour) => first + hour));
  });

  it('stay within the period at its ends', () => {
    const { step } = of('2028-12-31', 24);
    expect(Math.max(...step)).toBeLessThan(365 * 24);
    expect(Math.min(...step)).toBeGreaterThanOrEqual(361 * 24);
  });

  it('are those of 28 February on the 29th', () => {
    const { step } = of('2028-02-29');
    const day = Math.floor(step[0] / 24);
    expect(Math.abs(day - 58)).toBeLessThanOrEqual(3);
  });

  it('are missing where the period is short', () => {
    const short = { ...designed, count: 31 * 24 };
    const calendar = makeCalendar(clock, at('2026-02-01'), 60, 48);
    const known = makeCalendar(clock, designed.startS, 60, short.count);
    const { issues } = sameDays(short, calendar, known, PERIOD, 'site.yaml');
    expect(issues).toMatchObject([{ code: 'log-not-designed', at: { file: 'site.yaml' } }]);
  });
});

const PERIOD = { period: { start: '2025-01-01', days: 365, stepMin: 5 as const } };
