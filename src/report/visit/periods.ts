import type { Visit } from '../../scenarios/visit/visit.ts';
import { MONTH_NAMES } from '../view.ts';
import { localMsOf, logDays } from './span.ts';

/** A month or a week of the log: means of the days that can be compared. */
export interface Period {
  /** "Jan", "3 Mar"; what a longer log needs to tell it from another */
  label: string;
  /** "January 2025", "the week from 3 March" */
  name: string;
  /** days in the log, and those of them that can be compared */
  days: number;
  compared: number;
  /** generator [kWh/day]; NaN where no day can be compared */
  designedKwh: number;
  ranKwh: number;
}

/** Logs shorter than this are told by weeks [days]. */
const BY_WEEK_DAYS = 100;
const DAY_MS = 86_400_000;

/** The log by calendar months, or by weeks from its first day where it is short. */
export function periodsOf(visit: Visit): Period[] {
  const { days } = visit.comparison;
  const byWeek = logDays(visit) < BY_WEEK_DAYS;
  const dates = days.startS.map((startS) => localMsOf(visit, startS + 3600));
  const groups = new Map<number, number[]>();
  dates.forEach((ms, i) => {
    const date = new Date(ms);
    const key = byWeek
      ? Math.floor((ms - dates[0]) / DAY_MS / 7 + 1e-6)
      : 12 * date.getUTCFullYear() + date.getUTCMonth();
    groups.set(key, [...(groups.get(key) ?? []), i]);
  });
  return [...groups.values()].map((group) => periodOf(visit, group, new Date(dates[group[0]]), byWeek));
}

function periodOf(
  { comparison: { days } }: Visit,
  group: readonly number[],
  first: Date,
  byWeek: boolean,
): Period {
  const both = group.filter((i) => Number.isFinite(days.ranKwh[i]) && Number.isFinite(days.designedKwh[i]));
  const mean = (values: readonly (number | null)[]) =>
    both.length === 0 ? Number.NaN : both.reduce((sum, i) => sum + (values[i] ?? 0), 0) / both.length;
  const month = MONTH_NAMES[first.getUTCMonth()];
  return {
    label: byWeek ? `${first.getUTCDate()} ${month.slice(0, 3)}` : month.slice(0, 3),
    name: byWeek ? `the week from ${first.getUTCDate()} ${month}` : `${month} ${first.getUTCFullYear()}`,
    days: group.length,
    compared: both.length,
    designedKwh: mean(days.designedKwh),
    ranKwh: mean(days.ranKwh),
  };
}
