import { sumOfColumns } from '../../sum-columns.ts';
import type { VisitGround } from '../ground.ts';

/** Steps of each local day of the log, from its first to its last. */
export function daysOf({ calendar }: Pick<VisitGround, 'calendar'>): { from: number; to: number }[] {
  const days: { from: number; to: number }[] = [];
  const { dayNumber } = calendar;
  for (let i = 0; i < dayNumber.length; i++)
    if (i === 0 || dayNumber[i] !== dayNumber[i - 1]) days.push({ from: i, to: i + 1 });
    else days[days.length - 1].to = i + 1;
  return days;
}

/** Start of a step [s]; of the step after the last: the end of the log. */
export function timeOf({ record: { axis } }: Pick<VisitGround, 'record'>, step: number): number {
  return axis.startS + step * axis.stepMin * 60;
}

export function stepHours({ record }: Pick<VisitGround, 'record'>): number {
  return record.axis.stepMin / 60;
}

/** What the engine does in each step: 1 it ran for at least a part, 0 it stood, NaN not known; null without a column. */
export function engineRan({ record, site }: Pick<VisitGround, 'record' | 'site'>): Float64Array | null {
  const { generatorOn, generatorKw } = record.columns;
  const leastKw = 0.01 * (site.generator?.ratedKw ?? 0);
  if (generatorOn) return generatorOn.map((share) => (Number.isNaN(share) ? share : Number(share > 0)));
  return generatorKw?.map((kw) => (Number.isNaN(kw) ? kw : Number(kw > leastKw))) ?? null;
}

/** Load of all phases: its own column, or the phases together; null without either. */
export function wholeLoad({ record }: Pick<VisitGround, 'record'>): Float64Array | null {
  const { loadKw, load1Kw, load2Kw, load3Kw } = record.columns;
  if (loadKw) return loadKw;
  if (load1Kw && load2Kw && load3Kw) return sumOfColumns([load1Kw, load2Kw, load3Kw]);
  return null;
}

/** Output of all arrays: its own column, or the arrays together where each has one; null without either. */
export function wholeArrays({ record, site }: Pick<VisitGround, 'record' | 'site'>): Float64Array | null {
  if (record.columns.arrayKw) return record.columns.arrayKw;
  const each = site.arrays.map(({ name }) => record.arraysKw[name]);
  if (each.length === 0 || each.some((kw) => kw === undefined)) return null;
  return sumOfColumns(each);
}
