import { percentile } from './many/percentile.ts';

/**
 * A percentile of the values that are known (NaN: not known), in their unit; definition as `percentile`.
 * @param values  in any order
 * @param percent 0 to 100
 * @returns NaN where no value is known
 */
export function percentileOf(values: ArrayLike<number>, percent: number): number {
  const sorted = Float64Array.from(Array.from(values).filter((value) => !Number.isNaN(value))).sort();
  return sorted.length > 0 ? percentile(sorted, percent) : Number.NaN;
}

/** The median of the values that are known, in their unit: of two in the middle their mean. NaN where none is known. */
export function medianOf(values: ArrayLike<number>): number {
  return percentileOf(values, 50);
}

/**
 * The value in the middle, of two the upper one: for a value that occurs, such as the usual time between two readings.
 * @param values in any order and unit, all of them known
 * @returns NaN where there is none
 */
export function upperMedianOf(values: ArrayLike<number>): number {
  const sorted = Float64Array.from(values).sort();
  return sorted.length > 0 ? sorted[sorted.length >> 1] : Number.NaN;
}

/** Median distance from the median, times this, is the standard deviation of normal values: 1 / 0.6745. */
const NORMAL = 1.4826;

/**
 * Deviation of values about their median, in their unit, as if they were normal: a few wild ones do not widen it.
 * @param values in any order, NaN where not known
 * @returns >= 0; NaN where none is known
 */
export function spreadOf(values: ArrayLike<number>): number {
  const middle = medianOf(values);
  return NORMAL * medianOf(Array.from(values, (value) => Math.abs(value - middle)));
}
