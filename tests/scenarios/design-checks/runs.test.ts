/** Checks that count runs and hours, on ledgers written by hand. */
import { describe, expect, it } from 'vitest';
import type { CheckedRun } from '../../../src/scenarios/design-checks/check.ts';
import { generatorDutyChecks, runningHours } from '../../../src/scenarios/design-checks/generator-duty.ts';
import { startChecks } from '../../../src/scenarios/design-checks/starts.ts';
import { tankChecks } from '../../../src/scenarios/design-checks/tank.ts';
import type { StartCause } from '../../../src/sim/causes.ts';

interface Written {
  /** start, end, litres, cause */
  runs?: [number, number, number, StartCause][];
  outagesAtH?: number[];
  days?: number;
  site?: object;
  totals?: object;
  generatorKw?: number;
}

/** Hours of a year, restricted from 22:00 to midnight, a generator of 10 kW. */
function written({
  runs = [],
  outagesAtH = [],
  days = 365,
  site = {},
  totals = {},
  generatorKw = 0,
}: Written) {
  const count = days * 24;
  const ledger = {
    stepMin: 60,
    count,
    totals,
    runs: runs.map(([startH, endH, litres, cause]) => ({ startH, endH, litres, cause })),
    outages: outagesAtH.map((startH) => ({ startH, endH: startH + 1 })),
  };
  return {
    site: { design: { mostStartsPerDay: 2 }, ...site },
    plant: {
      generator: { ratedKw: 10, startDelayH: 0.01 },
      tank: { capacityL: 240, reserveL: 30, orderAtL: 100, leadH: 48 },
    },
    inputs: { restricted: Uint8Array.from({ length: count }, (_, i) => Number(i % 24 >= 22)) },
    ledger,
    columns: {
      generatorKw: Float64Array.from({ length: count }, (_, i) =>
        runs.some(([startH, endH]) => i >= startH && i < endH) ? generatorKw : 0,
      ),
    },
    darkWeek: { fromStep: 48, toStep: 48 + 168 },
  } as unknown as CheckedRun;
}

const startsOn = (day: number, times: number): [number, number, number, StartCause][] =>
  Array.from({ length: times }, (_, i) => [day * 24 + 2 * i, day * 24 + 2 * i + 1, 3, 'charge']);

describe('starts a day', () => {
  it('are worth a look on an odd day, and not acceptable as a habit', () => {
    const check = (days: number) =>
      startChecks(written({ runs: Array.from({ length: days }, (_, day) => startsOn(day, 3)).flat() }))[0];
    expect(startChecks(written({ runs: startsOn(7, 2) }))[0]).toMatchObject({ value: 2, verdict: 'fine' });
    expect(check(36)).toMatchObject({ value: 3, verdict: 'look at', note: 'More than 2 on 36 of 365 days.' });
    expect(check(37)).toMatchObject({ value: 3, verdict: 'not acceptable' });
  });
});

describe('restricted hours', () => {
  const check = (run: Written) => startChecks(written(run))[1];

  it('count urgent starts and interruptions, and only tell of other starts', () => {
    const found = check({
      runs: [
        // asked for before 22:00 and turning just after; at 22:30; a peak at 23:00; at noon
        [22.005, 23, 3, 'charge'],
        [46.5, 47, 3, 'charge'],
        [71, 72, 3, 'peak'],
        [84, 85, 3, 'charge'],
        // at 22:30 and 23:00
        [118.5, 119, 3, 'full'],
        [143, 144, 3, 'exercise'],
      ],
      outagesAtH: [94.2, 100],
    });
    expect(found).toMatchObject({
      value: 4,
      verdict: 'look at',
      note: '3 urgent starts, 1 interruption; for another cause 1 start.',
    });
    expect(check({ runs: [[84, 85, 3, 'charge']] })).toMatchObject({ value: 0, verdict: 'fine' });
  });

  it('are not kept when that happens more than once a week', () => {
    const times = (count: number) => Array.from({ length: count }, (_, i) => i * 24 + 22.5);
    expect(check({ outagesAtH: times(52) })?.verdict).toBe('look at');
    expect(check({ outagesAtH: times(53) })?.verdict).toBe('not acceptable');
  });
});

describe('the tank in the dark week', () => {
  it('lasts by the litres of its runs, those on its edges in part', () => {
    // the week is from hour 48 to 216: 10 of 20 L, 24 L, 6 of 8 L: 40 L in 7 days; 210 L usable
    const run = written({
      runs: [
        [47, 49, 20, 'charge'],
        [100, 104, 24, 'charge'],
        [210, 218, 8, 'charge'],
        [300, 305, 90, 'charge'],
      ],
    });
    const [full, order] = tankChecks(run);
    expect(full.value).toBeCloseTo((7 * 210) / 40, 9);
    expect(order.value).toBeCloseTo((7 * 70) / 40, 9);
    expect(order).toMatchObject({ limit: 2, verdict: 'fine' });
  });

  it('lasts a year and more when nothing is burnt', () => {
    expect(tankChecks(written({}))[0]).toMatchObject({ value: 365, verdict: 'fine' });
  });
});

describe('the duty of the generator', () => {
  const duty = (ratingClass: string, run: Written) =>
    generatorDutyChecks(written({ site: { generator: { ratingClass } }, ...run }));
  const totals = (runH: number, onLoadH = runH, lowLoadH = 0) => ({ runH, onLoadH, lowLoadH });

  it('leaves warm-up and cool-down out of the hours below 30 %', () => {
    const lowLoad = (low: number) => duty('prime', { totals: totals(110, 100, 10 + low) })[0];
    expect(lowLoad(20)).toMatchObject({ value: 20, verdict: 'fine' });
    expect(lowLoad(21)).toMatchObject({ value: 21, verdict: 'look at' });
    expect(lowLoad(51)).toMatchObject({ value: 51, verdict: 'not acceptable' });
  });

  // ISO 8528-1: 500 h a year limited-time, 200 h standby (seen second hand)
  it.each([
    ['limitedTime', 500],
    ['standby', 200],
  ])('%s: %d h a year', (ratingClass, hours) => {
    const check = (runH: number) =>
      duty(ratingClass, { totals: totals(runH) }).find(({ key }) => key === 'generator.hours');
    expect(check(hours)?.verdict).toBe('fine');
    expect(check(hours + 1)?.verdict).toBe('not acceptable');
  });

  it.each(['prime', 'continuous'])('%s: as many hours as there are', (ratingClass) => {
    const keys = duty(ratingClass, { totals: totals(8760) }).map(({ key }) => key);
    expect(keys).toEqual(['generator.lowLoad', 'generator.average']);
  });

  // 70 % for prime and standby, all of it for continuous and limited-time (seen second hand)
  it.each([
    ['prime', 70],
    ['standby', 70],
    ['continuous', 100],
    ['limitedTime', 100],
  ])('%s: %d percent on average over 24 h; more of it in half a day is overload', (ratingClass, percent) => {
    const check = (hours: number, kw: number) =>
      duty(ratingClass, { runs: [[24, 24 + hours, 9, 'charge']], totals: totals(hours), generatorKw: kw })[1];
    expect(check(20, percent / 10)).toMatchObject({ limit: percent, verdict: 'fine' });
    expect(check(11, percent / 10 + 0.1).verdict).toBe('look at');
    expect(check(12, percent / 10 + 0.1).verdict).toBe('not acceptable');
  });

  it('spreads runs over the steps in which the engine turns', () => {
    const hours = runningHours(
      written({
        runs: [
          [1.25, 3.5, 1, 'charge'],
          [3.75, 4, 1, 'peak'],
        ],
        days: 1,
      }),
    );
    expect(Array.from(hours.subarray(0, 6))).toEqual([0, 0.75, 1, 0.75, 0, 0]);
  });
});
