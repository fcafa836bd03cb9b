import { percentile } from '../../many/percentile.ts';

/** A percentile of the values that are known; NaN where none is. */
export function percentileOf(values: ArrayLike<number>, percent: number): number {
  const sorted = Float64Array.from(Array.from(values).filter((value) => !Number.isNaN(value))).sort();
  return sorted.length > 0 ? percentile(sorted, percent) : Number.NaN;
}

export function medianOf(values: ArrayLike<number>): number {
  return percentileOf(values, 50);
}

/** Deviation of values about their median, as if they were normal: 1.4826 times the median distance from it. */
export function spreadOf(values: ArrayLike<number>): number {
  const middle = medianOf(values);
  return 1.4826 * medianOf(Array.from(values, (value) => Math.abs(value - middle)));
}
