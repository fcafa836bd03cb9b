import type { TimeAxis } from '../series.ts';
import type { RowIntervals } from './read-intervals.ts';

/** Stamps off by less than this share of a step belong to it: no clock is to the second. */
const SLACK = 0.25;
/** A step has a value where rows speak for at least this share of it. */
const LEAST_COVERED = 0.5;
/** The axis of a log: from its first row to its last, on whole steps of the local clock. */
export function axisOf({ fromS, toS, stepMin }: RowIntervals, offsetS: number): TimeAxis {
  const stepS = stepMin * 60;
  const gridS = mod(-offsetS, stepS);
  const startS = Math.floor((fromS[0] - gridS) / stepS + SLACK) * stepS + gridS;
  const endS = Math.ceil((toS[toS.length - 1] - gridS) / stepS - SLACK) * stepS + gridS;
  return { startS, stepMin, count: Math.max(1, Math.round((endS - startS) / stepS)) };
}

/** Share of each step that rows speak for. */
export function coverage(intervals: RowIntervals, axis: TimeAxis): Float64Array {
  const covered = new Float64Array(axis.count);
  eachPart(intervals, axis, (_, step, partS) => {
    covered[step] += partS / (axis.stepMin * 60);
  });
  return covered;
}

/**
 * Means of steps, weighted by time; NaN where rows with a value speak for less than half of a step.
 * @param values mean over each row's stretch; NaN: none
 */
export function layMeans(values: Float64Array, intervals: RowIntervals, axis: TimeAxis): Float64Array {
  const sums = new Float64Array(axis.count);
  const weights = new Float64Array(axis.count);
  const stepS = axis.stepMin * 60;
  eachPart(intervals, axis, (row, step, partS) => {
    if (Number.isNaN(values[row])) return;
    sums[step] += values[row] * partS;
    weights[step] += partS;
  });
  for (let i = 0; i < sums.length; i++)
    sums[i] = weights[i] >= LEAST_COVERED * stepS ? sums[i] / weights[i] : Number.NaN;
  return sums;
}

/**
 * Levels at the ends of steps: that of the last row that ends in the step; within the stretch of a longer row that of
 * the row before it.
 */
export function layLevels(
  values: Float64Array,
  intervals: RowIntervals,
  covered: Float64Array,
  axis: TimeAxis,
): Float64Array {
  const { toS } = intervals;
  const levels = new Float64Array(axis.count).fill(Number.NaN);
  const stepS = axis.stepMin * 60;
  const own = new Uint8Array(axis.count);
  for (let row = 0; row < values.length; row++) {
    const step = Math.ceil((toS[row] - axis.startS) / stepS - SLACK) - 1;
    if (step < 0 || step >= axis.count) continue;
    own[step] = 1;
    if (!Number.isNaN(values[row])) levels[step] = values[row];
  }
  for (let i = 1; i < levels.length; i++)
    if (own[i] === 0 && covered[i] >= LEAST_COVERED) levels[i] = levels[i - 1];
  return levels;
}

/** Steps for which no row speaks. */
export function isBare(covered: Float64Array, step: number): boolean {
  return covered[step] < LEAST_COVERED;
}

/** Every part of a row's stretch that lies in one step. */
function eachPart(
  { fromS, toS }: RowIntervals,
  axis: TimeAxis,
  tell: (row: number, step: number, partS: number) => void,
): void {
  const stepS = axis.stepMin * 60;
  for (let row = 0; row < fromS.length; row++) {
    const from = fromS[row] - axis.startS;
    const to = toS[row] - axis.startS;
    const last = Math.min(axis.count - 1, Math.ceil(to / stepS) - 1);
    for (let step = Math.max(0, Math.floor(from / stepS)); step <= last; step++)
      tell(row, step, Math.min(to, (step + 1) * stepS) - Math.max(from, step * stepS));
  }
}

function mod(value: number, by: number): number {
  return ((value % by) + by) % by;
}
