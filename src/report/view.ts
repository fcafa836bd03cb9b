import {
  type Calendar,
  type Clock,
  makeCalendar,
  makeClock,
  monthEnds,
  offsetAt,
} from '../scenarios/clock.ts';
import type { Study } from '../scenarios/study.ts';

/** Steps on a site's clock. */
export interface AxisView {
  study: Pick<Study, 'axis' | 'timeZone'>;
  clock: Clock;
  calendar: Calendar;
}

/** A study on its site's clock: what all drawings and lists of one page share. */
export interface StudyView extends AxisView {
  study: Study;
  /** local calendar months of the run, whole or in part, in order */
  months: Month[];
}

interface Month {
  /** "January"; with the year where the run touches a month twice or is longer than a year */
  name: string;
  /** "Jan"; "Jan 2025" likewise */
  short: string;
  year: number;
  fromStep: number;
  /** not included */
  toStep: number;
}

export const MONTH_NAMES = [
  ...['January', 'February', 'March', 'April', 'May', 'June'],
  ...['July', 'August', 'September', 'October', 'November', 'December'],
];
const WEEKDAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];

/** Errors: throws on a time zone that does not exist, which is refused where the site file is read. */
export function makeView(study: Study): StudyView {
  const { clock, calendar } = makeAxisView(study);
  return { study, clock, calendar, months: monthsOf(calendar) };
}

/** Errors: as of `makeView`. */
export function makeAxisView(study: AxisView['study']): AxisView {
  const { startS, stepMin, count } = study.axis;
  const clock = makeClock(study.timeZone, startS, startS + count * stepMin * 60);
  if (clock === null) throw new Error(`no time zone '${study.timeZone}'`);
  return { study, clock, calendar: makeCalendar(clock, startS, stepMin, count) };
}

function monthsOf(calendar: Calendar): Month[] {
  const ends = monthEnds(calendar);
  const withYear = ends.length > 12;
  return ends.map((toStep, i) => {
    const index = calendar.monthIndex[toStep - 1];
    const year = Math.floor(index / 12);
    const name = MONTH_NAMES[index % 12];
    const tail = withYear ? ` ${year}` : '';
    return {
      name: name + tail,
      short: name.slice(0, 3) + tail,
      year,
      fromStep: i === 0 ? 0 : ends[i - 1],
      toStep,
    };
  });
}

/** Local time counted as if it were UTC [ms], of an instant given in hours from the start of the run. */
export function localMs(view: AxisView, hours: number): number {
  const utcS = view.study.axis.startS + Math.round(hours * 3600);
  return (utcS + offsetAt(view.clock, utcS)) * 1000;
}

export function hoursOfStep(view: AxisView, step: number): number {
  return (step * view.study.axis.stepMin) / 60;
}

/** "3 July" of local milliseconds. */
export function dayMonth(ms: number): string {
  const date = new Date(ms);
  return `${date.getUTCDate()} ${MONTH_NAMES[date.getUTCMonth()]}`;
}

/** "Thu 3 Jul" */
export function shortDay(ms: number): string {
  const date = new Date(ms);
  return `${weekday(ms)} ${date.getUTCDate()} ${MONTH_NAMES[date.getUTCMonth()].slice(0, 3)}`;
}

export function weekday(ms: number): string {
  return WEEKDAYS[(new Date(ms).getUTCDay() + 6) % 7];
}

/** "3 July 2025" */
export function fullDate(ms: number): string {
  return `${dayMonth(ms)} ${new Date(ms).getUTCFullYear()}`;
}

/** "06:05", to the minute */
export function timeOfDay(ms: number): string {
  return new Date(ms).toISOString().slice(11, 16);
}

/** "3 to 9 July", "28 June to 4 July", of the first and the last day. */
export function daySpan(firstMs: number, lastMs: number): string {
  const [first, last] = [new Date(firstMs), new Date(lastMs)];
  const sameMonth =
    first.getUTCMonth() === last.getUTCMonth() && first.getUTCFullYear() === last.getUTCFullYear();
  if (sameMonth && first.getUTCDate() === last.getUTCDate()) return dayMonth(firstMs);
  return `${sameMonth ? first.getUTCDate() : dayMonth(firstMs)} to ${dayMonth(lastMs)}`;
}
