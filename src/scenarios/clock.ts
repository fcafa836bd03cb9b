import { Temporal } from 'temporal-polyfill';

/** A local clock over a span: its offsets from UTC and when they change. */
export interface Clock {
  name: string;
  /** instants [s since 1970 UTC] from which each offset holds; the first is at or before the span */
  fromS: number[];
  /** local time less UTC [s] */
  offsetS: number[];
}

/**
 * The clock of an IANA zone ('Australia/Sydney') or of a fixed offset ('+10:00', 'UTC', 'UTC-3').
 * Changes are looked up once; everything after is arithmetic.
 * @returns null when the name is not a zone
 */
export function makeClock(name: string, fromS: number, toS: number): Clock | null {
  const fixed = fixedOffsetS(name);
  if (fixed !== null) return { name, fromS: [fromS - 86400], offsetS: [fixed] };
  let at: Temporal.ZonedDateTime;
  try {
    at = Temporal.Instant.fromEpochMilliseconds((fromS - 86400) * 1000).toZonedDateTimeISO(name);
  } catch {
    return null;
  }
  const clock: Clock = { name, fromS: [fromS - 86400], offsetS: [at.offsetNanoseconds / 1e9] };
  for (;;) {
    const next = at.getTimeZoneTransition('next');
    if (next === null || next.epochMilliseconds / 1000 > toS + 86400) return clock;
    clock.fromS.push(next.epochMilliseconds / 1000);
    clock.offsetS.push(next.offsetNanoseconds / 1e9);
    at = next;
  }
}

/** '+10:00', '-03:30', 'UTC', 'UTC+10', 'Z' -> seconds; null for anything else. */
function fixedOffsetS(name: string): number | null {
  if (/^(utc|z|gmt)$/i.test(name)) return 0;
  const match = /^(?:utc|gmt)?([+-])(\d{1,2})(?::?(\d{2}))?$/i.exec(name);
  if (!match) return null;
  const seconds = Number(match[2]) * 3600 + Number(match[3] ?? 0) * 60;
  return match[1] === '-' ? -seconds : seconds;
}

/** Local time less UTC at an instant [s]. */
export function offsetAt(clock: Clock, utcS: number): number {
  let i = clock.fromS.length - 1;
  while (i > 0 && clock.fromS[i] > utcS) i--;
  return clock.offsetS[i];
}

/**
 * The instants that a local time can mean: one; two in the hour that an autumn change repeats, earlier first;
 * none in the hour that a spring change leaves out.
 * @param localS local time counted as if it were UTC [s]
 */
export function instantsOf(clock: Clock, localS: number): number[] {
  const found: number[] = [];
  for (const offset of new Set(clock.offsetS)) {
    const utcS = localS - offset;
    if (offsetAt(clock, utcS) === offset) found.push(utcS);
  }
  return found.sort((a, b) => a - b);
}

/** The first instant at which the clock shows a local time, or a later one where a spring change leaves that out. */
export function instantFrom(clock: Clock, localS: number): number {
  const [first] = instantsOf(clock, localS);
  if (first !== undefined) return first;
  // before the change the clock shows less than that, after it more
  return clock.fromS.find((changeS, i) => changeS + clock.offsetS[i] > localS) ?? localS - clock.offsetS[0];
}

/** Local calendar fields of the start of each step. */
export interface Calendar {
  minuteOfDay: Uint16Array;
  /** 0 Monday to 6 Sunday */
  weekday: Uint8Array;
  /** months since year 0: 12·year + month (January 0) */
  monthIndex: Uint16Array;
  /** days since 1970-01-01, local */
  dayNumber: Int32Array;
}

/** Calendar of a time axis by a clock; a year of minutes takes some ten milliseconds. */
export function makeCalendar(clock: Clock, startS: number, stepMin: number, count: number): Calendar {
  const calendar: Calendar = {
    minuteOfDay: new Uint16Array(count),
    weekday: new Uint8Array(count),
    monthIndex: new Uint16Array(count),
    dayNumber: new Int32Array(count),
  };
  let change = 0;
  let lastDay = Number.NaN;
  let month = 0;
  for (let i = 0; i < count; i++) {
    const utcS = startS + i * stepMin * 60;
    while (change + 1 < clock.fromS.length && clock.fromS[change + 1] <= utcS) change++;
    const localMin = Math.floor((utcS + clock.offsetS[change]) / 60);
    const day = Math.floor(localMin / 1440);
    if (day !== lastDay) {
      const date = new Date(day * 86_400_000);
      month = 12 * date.getUTCFullYear() + date.getUTCMonth();
      lastDay = day;
    }
    calendar.minuteOfDay[i] = localMin - day * 1440;
    calendar.dayNumber[i] = day;
    calendar.weekday[i] = (((day + 3) % 7) + 7) % 7;
    calendar.monthIndex[i] = month;
  }
  return calendar;
}

/** Steps (not included) at which the local calendar months end, the last at the end of the axis. */
export function monthEnds(calendar: Calendar): number[] {
  const { monthIndex } = calendar;
  const ends: number[] = [];
  for (let i = 1; i < monthIndex.length; i++) if (monthIndex[i] !== monthIndex[i - 1]) ends.push(i);
  return [...ends, monthIndex.length];
}
