import type { Calendar } from '../clock.ts';
import type { Issue } from '../issue.ts';
import type { TimeAxis } from '../series.ts';
import type { Site } from '../site-schema.ts';

/** How far a day may be moved so that its weekday is the same [days]. */
const MOST_MOVED = 3;

/**
 * For each step of a log, the step of the designed period that stands for it: the same day of the year, moved to the
 * nearest with its weekday where the period has that, at the same time of day. 29 February is 28 February where the
 * period has none.
 * @param designed axis of the site file's period, in the log's step
 * @param calendar of the log, local; @param designedCalendar of the site file's period
 * @param file the site file's name
 * @returns steps, none of use with an error among the issues
 */
export function sameDays(
  designed: TimeAxis,
  calendar: Calendar,
  designedCalendar: Calendar,
  { period }: Pick<Site, 'period'>,
  file: string,
): { step: Int32Array; issues: Issue[] } {
  const firstStep = new Map<number, number>();
  for (const [i, day] of designedCalendar.dayNumber.entries()) if (!firstStep.has(day)) firstStep.set(day, i);
  const byDate = new Map<string, number>();
  for (const day of firstStep.keys()) byDate.set(dateOf(day), day);
  const stepsPerDay = 1440 / designed.stepMin;
  const step = new Int32Array(calendar.dayNumber.length);
  const missing = new Set<string>();
  let lastDay = Number.NaN;
  let from = -1;
  for (const [i, day] of calendar.dayNumber.entries()) {
    if (day !== lastDay) {
      lastDay = day;
      const date = dateOf(day);
      const same = byDate.get(date) ?? (date === '02-29' ? byDate.get('02-28') : undefined);
      if (same === undefined) missing.add(date);
      else from = firstStep.get(withWeekday(same, day, firstStep)) ?? -1;
    }
    const within = Math.min(Math.floor(calendar.minuteOfDay[i] / designed.stepMin), stepsPerDay - 1);
    step[i] = Math.min(from + within, designed.count - 1);
  }
  return { step, issues: missing.size > 0 ? [notDesigned(missing, period, file)] : [] };
}

/** The day nearest to one that has the weekday of another, among those known; else the day itself. */
function withWeekday(near: number, like: number, known: ReadonlyMap<number, number>): number {
  for (let moved = 0; moved <= MOST_MOVED; moved++)
    for (const day of [near + moved, near - moved]) if ((day - like) % 7 === 0 && known.has(day)) return day;
  return near;
}

/** Month and day, as 02-28. */
function dateOf(dayNumber: number): string {
  return new Date(dayNumber * 86_400_000).toISOString().slice(5, 10);
}

function notDesigned(missing: ReadonlySet<string>, { start, days }: Site['period'], file: string): Issue {
  const [first] = missing;
  return {
    severity: 'error',
    code: 'log-not-designed',
    path: 'period',
    got: `${days} days from ${start}, without ${missing.size === 1 ? first : `${missing.size} days of the log, ${first} the first`}`,
    want: 'a period with every day of the year that the log has: 365 days have them all',
    at: { file },
  };
}
