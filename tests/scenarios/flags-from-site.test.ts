/** Flags of a run from the site file, on local clocks that change; days and hours counted on the calendar by hand. */
import { describe, expect, it } from 'vitest';
import { Cache } from '../../src/scenarios/cache.ts';
import { type Clock, instantsOf, makeCalendar, makeClock } from '../../src/scenarios/clock.ts';
import { flagsFromSite } from '../../src/scenarios/flags-from-site.ts';
import { siteSchema } from '../../src/scenarios/site-schema.ts';
import type { Inputs } from '../../src/sim/inputs.ts';

const SYDNEY = 'Australia/Sydney';

/** Flags from local midnight of a day on, in half hours, and the local time of each step as text. */
function flagsFor(groups: Record<string, unknown>, start = '2025-06-02', days = 7, zone = SYDNEY) {
  const site = siteSchema.parse({
    site: { name: 'x', latitudeDeg: -35, longitudeDeg: 150, timeZone: zone },
    period: { start, days, stepMin: 30 },
    battery: { modules: 2, moduleKwh: 5, moduleChargeKw: 2, moduleDischargeKw: 3 },
    inverter: { phases: 1, ratedKva: 5, chargerKw: 3, ...(groups.inverter as object) },
    generator: {
      ratedKw: 5,
      fuel: [
        { kW: 0, lPerH: 0.6 },
        { kW: 5, lPerH: 1.9 },
      ],
      ...(groups.generator as object),
    },
    money: { fuelPerL: 1.5 },
    control: groups.control ?? {},
    people: groups.people ?? {},
    faults: groups.faults ?? {},
    shiftable: groups.shiftable ?? [],
  });
  const localS = Date.parse(`${start}T00:00Z`) / 1000;
  const clock = makeClock(zone, localS - 86_400, localS + (days + 1) * 86_400) as Clock;
  const [startS] = instantsOf(clock, localS);
  const [endS] = instantsOf(clock, localS + days * 86_400);
  const axis = { startS, stepMin: 30, count: (endS - startS) / 1800 };
  const calendar = makeCalendar(clock, axis.startS, 30, axis.count);
  const flags = flagsFromSite(site, calendar, clock, axis, new Cache());
  const stampOf = (i: number) =>
    `${new Date(calendar.dayNumber[i] * 86_400_000).toISOString().slice(5, 10)} ${String(Math.floor(calendar.minuteOfDay[i] / 60)).padStart(2, '0')}:${String(calendar.minuteOfDay[i] % 60).padStart(2, '0')}`;
  return { flags, count: axis.count, stampOf };
}

type Made = ReturnType<typeof flagsFor>;

/** Local times at which a flag rises and falls. */
function edges({ flags, stampOf }: Made, name: keyof Inputs): string[] {
  const series = flags[name] as Uint8Array;
  const found: string[] = [];
  for (let i = 0; i < series.length; i++)
    if (series[i] !== (i === 0 ? 0 : series[i - 1])) found.push(`${series[i]} ${stampOf(i)}`);
  return found;
}

/** Local times at which a flag is set. */
const set = ({ stampOf }: Made, series: Uint8Array) =>
  Array.from(series.keys())
    .filter((i) => series[i] !== 0)
    .map(stampOf);

describe('hours of the day', () => {
  // 2 June 2025 is a Monday
  it('belong to the day on which they begin, past midnight too', () => {
    const restrictedHours = [{ from: '22:00', to: '06:00', weekdays: ['fri'] }];
    const got = flagsFor({ control: { restrictedHours } });
    expect(edges(got, 'restricted')).toEqual(['1 06-06 22:00', '0 06-07 06:00']);
  });

  it('of Sunday night reach into Monday, in a period that begins on it too', () => {
    const restrictedHours = [{ from: '22:00', to: '06:00', weekdays: ['sun'] }];
    const got = flagsFor({ control: { restrictedHours } });
    expect(edges(got, 'restricted')).toEqual(['1 06-02 00:00', '0 06-02 06:00', '1 06-08 22:00']);
  });

  it('several at once are any of them', () => {
    const restrictedHours = [
      { from: '06:00', to: '08:00', weekdays: ['tue'] },
      { from: '07:30', to: '09:00', weekdays: ['tue', 'wed'] },
    ];
    expect(edges(flagsFor({ control: { restrictedHours } }), 'restricted')).toEqual([
      ...['1 06-03 06:00', '0 06-03 09:00', '1 06-04 07:30', '0 06-04 09:00'],
    ]);
  });

  it('in some months follow the night that begins in one', () => {
    const calendar = [{ name: 'june', months: [6], hours: { from: '22:00', to: '06:00' }, startSoc: 0.5 }];
    const control = { charge: { startSoc: 0.3, stopSoc: 0.9 }, calendar };
    // the night to 1 June began in May, that to 1 July in June
    expect(edges(flagsFor({ control }, '2025-05-31', 3), 'thresholdSet')).toEqual([
      ...['1 06-01 22:00', '0 06-02 06:00', '1 06-02 22:00'],
    ]);
    expect(edges(flagsFor({ control }, '2025-06-30', 3), 'thresholdSet')).toEqual([
      ...['1 06-30 00:00', '0 06-30 06:00', '1 06-30 22:00', '0 07-01 06:00'],
    ]);
  });

  it('of a calendar: the first entry that fits holds', () => {
    const calendar = [
      { name: 'monday', weekdays: ['mon'], startSoc: 0.5 },
      { name: 'mornings', hours: { from: '06:00', to: '09:00' }, startSoc: 0.4 },
    ];
    const control = { charge: { startSoc: 0.3, stopSoc: 0.9 }, calendar };
    expect(edges(flagsFor({ control }, '2025-06-02', 2), 'thresholdSet')).toEqual([
      ...['1 06-02 00:00', '0 06-03 00:00', '2 06-03 06:00', '0 06-03 09:00'],
    ]);
  });

  it('go by the clock of the day on which it changes', () => {
    // Sydney, 6 October 2024: no 02:00 to 03:00; 7 April 2024: that hour twice
    const restrictedHours = [{ from: '01:00', to: '04:00' }];
    const spring = flagsFor({ control: { restrictedHours } }, '2024-10-06', 1);
    expect([spring.count, set(spring, spring.flags.restricted!).length]).toEqual([46, 4]);
    const autumn = flagsFor({ control: { restrictedHours } }, '2024-04-07', 1);
    expect([autumn.count, set(autumn, autumn.flags.restricted!).length]).toEqual([50, 8]);
  });
});

describe('what falls due daily', () => {
  const exercise = (at: string, everyDays = 1) => ({ control: { exercise: { at, everyDays } } });

  it('does so once a day, every so many days from the first', () => {
    const got = flagsFor(exercise('10:00', 3));
    expect(set(got, got.flags.exerciseDue!)).toEqual(['06-02 10:00', '06-05 10:00', '06-08 10:00']);
  });

  it('comes in the step that holds its time', () => {
    const got = flagsFor(exercise('10:20'), '2025-06-02', 1);
    expect(set(got, got.flags.exerciseDue!)).toEqual(['06-02 10:00']);
  });

  it('comes at the first time there is where the clock leaves its own out, and once where it comes twice', () => {
    const spring = flagsFor(exercise('02:30'), '2024-10-05', 3);
    expect(set(spring, spring.flags.exerciseDue!)).toEqual(['10-05 02:30', '10-06 03:00', '10-07 02:30']);
    const autumn = flagsFor(exercise('02:30'), '2024-04-06', 3);
    expect(set(autumn, autumn.flags.exerciseDue!)).toEqual(['04-06 02:30', '04-07 02:30', '04-08 02:30']);
  });

  it('is each shiftable load’s own, on each of its phases', () => {
    const shiftable = [
      { name: 'pump', watts: 900, kwhPerDay: 2, deadline: '18:00', phase: 'all' },
      { name: 'tank', watts: 900, kwhPerDay: 2, deadline: '06:00', phase: 2 },
    ];
    const got = flagsFor({ shiftable, inverter: { phases: 3 } }, '2025-06-02', 2);
    expect(got.flags.shiftDeadline!.map((series) => set(got, series).map((at) => at.slice(6)))).toEqual([
      ...[0, 1, 2].map(() => ['18:00', '18:00']),
      ['06:00', '06:00'],
    ]);
  });
});

describe('spans between moments', () => {
  it('have no last day', () => {
    const got = flagsFor({ faults: { generator: [{ from: '2025-06-03', to: '2025-06-05' }] } });
    expect(edges(got, 'outOfOrder')).toEqual(['1 06-03 00:00', '0 06-05 00:00']);
  });

  it('begin and end at times of day, at the first step from then on', () => {
    const bypass = [{ from: '2025-06-03T14:10', to: '2025-06-03T16:00' }];
    expect(edges(flagsFor({ faults: { bypass } }), 'bypass')).toEqual(['1 06-03 14:30', '0 06-03 16:00']);
  });

  it('reach over the ends of the period', () => {
    const away = [{ from: '2025-01-01', to: '2025-06-03T12:00' }];
    const got = flagsFor({ people: { away } });
    expect(edges(got, 'attended')).toEqual(['1 06-03 12:00']);
    const later = flagsFor({ people: { away: [{ from: '2026-01-01', to: '2026-02-01' }] } });
    expect(edges(later, 'attended')).toEqual(['1 06-02 00:00']);
  });

  it('begin where the clock goes on, if it leaves that moment out', () => {
    const generator = [{ from: '2024-10-06T02:30', to: '2024-10-06T05:00' }];
    const got = flagsFor({ faults: { generator } }, '2024-10-06', 1);
    expect(edges(got, 'outOfOrder')).toEqual(['1 10-06 03:00', '0 10-06 05:00']);
  });

  it('count the first of two moments of the same name', () => {
    // the hour from 02:00 comes twice: from 02:00 on there are 3 hours to 04:00
    const generator = [{ from: '2024-04-07T02:00', to: '2024-04-07T04:00' }];
    const got = flagsFor({ faults: { generator } }, '2024-04-07', 1);
    expect(set(got, got.flags.outOfOrder!)).toHaveLength(6);
  });

  it('of units out of service add up, by phase', () => {
    const units = [
      { from: '2025-06-03', to: '2025-06-05', phase: 2, units: 1 },
      { from: '2025-06-04', to: '2025-06-06', phase: 2, units: 2 },
    ];
    const got = flagsFor({ faults: { units }, inverter: { phases: 3, unitsPerPhase: 4 } });
    const [first, second] = got.flags.unitsOut!;
    expect(first.every((value) => value === 0)).toBe(true);
    expect([0, 48, 96, 144, 192].map((i) => second[i])).toEqual([0, 1, 3, 2, 0]);
  });
});

describe('people', () => {
  it('are there in attended hours, less where they are away', () => {
    const attended = [{ from: '07:00', to: '19:00', weekdays: ['mon', 'tue'] }];
    const away = [{ from: '2025-06-02T12:00', to: '2025-06-03T09:00' }];
    expect(edges(flagsFor({ people: { attended, away } }), 'attended')).toEqual([
      ...['1 06-02 07:00', '0 06-02 12:00', '1 06-03 09:00', '0 06-03 19:00'],
    ]);
  });

  it('are always there when nothing is said', () => {
    const { flags } = flagsFor({});
    for (const name of ['attended', 'outOfOrder', 'bypass', 'unitsOut', 'runWindow', 'startFails'] as const)
      expect(flags, name).not.toHaveProperty(name);
  });
});

describe('starts that fail', () => {
  const outcomes = (startFailures: object) =>
    flagsFor({ generator: { startFailures } }, '2025-06-02', 1).flags.startFails;

  it('are drawn with a seed: the same gives the same, another another', () => {
    const a = outcomes({ chance: 0.2, seed: 'a' })!;
    expect(outcomes({ chance: 0.2, seed: 'a' })).toEqual(a);
    expect(outcomes({ chance: 0.2, seed: 'b' })).not.toEqual(a);
    // within five standard deviations of a fifth: sqrt(5000·0.2·0.8) = 28.3
    const failed = a.reduce((sum, value) => sum + value, 0);
    expect(Math.abs(failed - 0.2 * a.length)).toBeLessThan(5 * Math.sqrt(a.length * 0.16));
  });

  it('are none without a chance, and all with certainty', () => {
    expect(outcomes({ chance: 0 })).toBeUndefined();
    expect(outcomes({ chance: 1 })!.every((value) => value === 1)).toBe(true);
  });
});
