import { describe, expect, it } from 'vitest';
import { instantsOf, makeCalendar, makeClock, monthEnds, offsetAt } from '../../src/scenarios/clock.ts';

const year = (y: number) => [Date.UTC(y, 0, 1) / 1000, Date.UTC(y + 1, 0, 1) / 1000] as const;

function clockFor(zone: string, y: number) {
  const clock = makeClock(zone, ...year(y));
  if (clock === null) throw new Error(zone);
  return clock;
}

describe('clock', () => {
  // half hours of local days with a change of the clock, computed with the system's zone data (derived)
  it.each([
    ['Australia/Sydney', '2024-04-07', 50],
    ['Australia/Sydney', '2024-10-06', 46],
    ['Australia/Lord_Howe', '2024-04-07', 49],
    ['Australia/Lord_Howe', '2024-10-06', 47],
    ['Australia/Adelaide', '2023-04-02', 50],
    ['Australia/Adelaide', '2023-10-01', 46],
    ['Europe/Berlin', '2023-03-26', 46],
    ['Europe/Berlin', '2023-10-29', 50],
    ['America/Los_Angeles', '2023-03-12', 46],
    ['America/Los_Angeles', '2023-11-05', 50],
    ['Australia/Brisbane', '2024-10-06', 48],
  ])('%s on %s has %d half hours', (zone, date, halfHours) => {
    const localS = Date.parse(`${date}T00:00Z`) / 1000;
    const clock = clockFor(zone, Number(date.slice(0, 4)));
    const [from] = instantsOf(clock, localS);
    const [to] = instantsOf(clock, localS + 86400);
    expect((to - from) / 1800).toBe(halfHours);
  });

  it.each(['Australia/Sydney', 'Europe/Berlin', 'America/Los_Angeles', 'Australia/Brisbane'])(
    'a year of %s has 17 568 half hours in a leap year',
    (zone) => {
      const clock = clockFor(zone, 2024);
      const [from] = instantsOf(clock, Date.UTC(2024, 0, 1) / 1000);
      const [to] = instantsOf(clock, Date.UTC(2025, 0, 1) / 1000);
      expect((to - from) / 1800).toBe(17_568);
    },
  );

  it('finds the two instants of a repeated hour and none of a skipped one', () => {
    const clock = clockFor('Europe/Berlin', 2023);
    expect(instantsOf(clock, Date.UTC(2023, 9, 29, 2, 30) / 1000)).toEqual([
      Date.UTC(2023, 9, 29, 0, 30) / 1000,
      Date.UTC(2023, 9, 29, 1, 30) / 1000,
    ]);
    expect(instantsOf(clock, Date.UTC(2023, 2, 26, 2, 30) / 1000)).toEqual([]);
  });

  it('reads fixed offsets and refuses what is no zone', () => {
    const [from, to] = year(2025);
    for (const [name, hours] of [
      ['+10:00', 10],
      ['UTC-3', -3],
      ['-03:30', -3.5],
      ['UTC', 0],
    ] as const) {
      const clock = makeClock(name, from, to);
      expect(clock && offsetAt(clock, from)).toBe(hours * 3600);
    }
    expect(makeClock('Nowhere/Town', from, to)).toBeNull();
  });
});

describe('calendar', () => {
  it('gives local minutes, weekdays and months across a change of the clock', () => {
    const clock = clockFor('Europe/Berlin', 2025);
    const [startS] = instantsOf(clock, Date.UTC(2025, 0, 1) / 1000);
    const calendar = makeCalendar(clock, startS, 60, 8760);
    expect(calendar.minuteOfDay[0]).toBe(0);
    expect(calendar.weekday[0]).toBe(2); // 1 January 2025 was a Wednesday
    expect(monthEnds(calendar)).toHaveLength(12);
    // 31 days of March have one hour less
    const ends = monthEnds(calendar);
    expect(ends[2] - ends[1]).toBe(31 * 24 - 1);
    expect(ends[9] - ends[8]).toBe(31 * 24 + 1);
    expect(ends[11]).toBe(8760);
  });
});
