import { makeClock, offsetAt } from '../../scenarios/clock.ts';
import type { Visit } from '../../scenarios/visit/visit.ts';
import { fullDate } from '../view.ts';

/** Days of a mean month: sums of a log are told by it, however long the log is. */
const MONTH_DAYS = 30.44;
const DAY_S = 86_400;

/** Length of the log [days], what could not be compared too. */
export function logDays({ fromS, toS }: Pick<Visit, 'fromS' | 'toS'>): number {
  return (toS - fromS) / DAY_S;
}

/** Months of 30.44 days for which sums of log and design stand; 0 where nothing can be compared. */
export function comparedMonths(visit: Visit): number {
  return (logDays(visit) * visit.comparison.coverage) / MONTH_DAYS;
}

/** A sum of the comparison by the month; null where there is none, or nothing to compare. */
export function aMonth(visit: Visit, sum: number | null): number | null {
  const months = comparedMonths(visit);
  return sum === null || months <= 0 ? null : sum / months;
}

/** Local time counted as if it were UTC [ms]. Errors: throws on a time zone that does not exist; site files have none. */
export function localMsOf(visit: Pick<Visit, 'timeZone' | 'fromS' | 'toS'>, utcS: number): number {
  const clock = makeClock(visit.timeZone, Math.min(visit.fromS, utcS), Math.max(visit.toS, utcS) + 1);
  if (clock === null) throw new Error(`no time zone '${visit.timeZone}'`);
  return (utcS + offsetAt(clock, utcS)) * 1000;
}

/** "3 Jul 2025" */
function shortDate(visit: Visit, utcS: number): string {
  const [day, month, year] = dateOf(visit, utcS).split(' ');
  return `${day} ${month.slice(0, 3)} ${year}`;
}

/** "3 July 2025" on the site's clock. */
export function dateOf(visit: Visit, utcS: number): string {
  return fullDate(localMsOf(visit, utcS));
}

/** Last day of a stretch that ends at an instant. */
export function lastDateOf(visit: Visit, toS: number): string {
  return dateOf(visit, toS - 1);
}

/** A stretch within the log: "since 3 Apr 2025"; null where it is the whole log, to a day. */
export function stretchWords(visit: Visit, fromS: number, toS: number): string | null {
  const late = fromS - visit.fromS > DAY_S;
  const early = visit.toS - toS > DAY_S;
  if (!late && !early) return null;
  if (!early) return `since ${shortDate(visit, fromS)}`;
  if (!late) return `until ${shortDate(visit, toS - 1)}`;
  const [first, last] = [shortDate(visit, fromS), shortDate(visit, toS - 1)];
  return first === last ? `on ${first}` : `from ${first} to ${last}`;
}
