import { medianOf, spreadOf } from '../../middle-values.ts';

/** A value that changed from one day to the next, and stayed. */
export interface Step {
  /** first day after it */
  at: number;
  before: number;
  after: number;
  /** deviation of the days about these two */
  spread: number;
}

/** Part of the whole change that must be seen right at the step, and at the log's end. */
const MOST_OF_IT = 0.6;
/** Share of the days on either side that lie on their side of the middle. */
const APART = 0.8;
/** Deviations of the difference of two means that are beyond chance: days that are alike count for less. */
const BEYOND_CHANCE = 6;

/**
 * The one step that explains a row of days best: least sum of distances from the medians on either side. A slow
 * change is none: the days right before and after must show most of it; nor is what went back: so must the last days.
 * @param days      a value a day, NaN where not known
 * @param leastDays known days needed on either side
 */
export function findStep(days: ArrayLike<number>, leastDays: number): Step | null {
  const known = Array.from(days, (value, day) => ({ value, day })).filter(
    ({ value }) => !Number.isNaN(value),
  );
  const values = known.map(({ value }) => value);
  let best = -1;
  let least = Number.POSITIVE_INFINITY;
  for (let at = leastDays; at <= values.length - leastDays; at++) {
    const cost = distances(values.slice(0, at)) + distances(values.slice(at));
    if (cost >= least) continue;
    least = cost;
    best = at;
  }
  if (best < 0) return null;
  const [left, right] = [values.slice(0, best), values.slice(best)];
  const [before, after] = [medianOf(left), medianOf(right)];
  const size = after - before;
  const spread = spreadOf([...left.map((value) => value - before), ...right.map((value) => value - after)]);
  const isMost = (change: number) => change / size >= MOST_OF_IT;
  const near = medianOf(right.slice(0, leastDays)) - medianOf(left.slice(-leastDays));
  const atEnd = medianOf(right.slice(-leastDays)) - before;
  const middle = (before + after) / 2;
  const apart = (side: number[], sign: number) =>
    side.filter((value) => (value - middle) * sign * size > 0).length >= APART * side.length;
  const chance = spread * Math.sqrt(1 / left.length + 1 / right.length);
  if (Math.abs(size) <= BEYOND_CHANCE * chance || !isMost(near) || !isMost(atEnd)) return null;
  if (!apart(left, -1) || !apart(right, 1)) return null;
  return { at: known[best].day, before, after, spread };
}

function distances(values: readonly number[]): number {
  const middle = medianOf(values);
  return values.reduce((sum, value) => sum + Math.abs(value - middle), 0);
}
