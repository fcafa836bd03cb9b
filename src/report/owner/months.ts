import type { Totals } from '../../sim/ledger.ts';
import type { OwnerView } from './source.ts';

/** A month of the calendar (0: January) and what of a figure falls into it in a year. */
export interface MonthValue {
  month: number;
  value: number;
}

/** A figure by months of the calendar, as a mean of the years of the run; only for runs of whole months of a year or more. */
export function byMonth(
  { view, result, years }: OwnerView,
  of: (month: Totals, place: number) => number,
): MonthValue[] {
  const sums = new Float64Array(12);
  for (const [i, { fromStep }] of view.months.entries())
    sums[view.calendar.monthIndex[fromStep] % 12] += of(result.ledger.periods[i], i);
  return Array.from(sums, (sum, month) => ({ month, value: sum / years }));
}
