/** The definition in words, to stand beside figures. */
export const PERCENTILE_WORDS =
  'The p % value of n values in order lies at place 1 + (n − 1)·p/100; between two places it is drawn straight (definition 7 of Hyndman and Fan, 1996)';

/**
 * A percentile by definition 7 of Hyndman and Fan, The American Statistician 50:361, 1996 (from memory): the value at
 * place 1 + (n − 1)·p/100 of the values in order, on a straight line between two places.
 * @param sorted rising, not empty
 * @param percent 0 to 100
 */
export function percentile(sorted: ArrayLike<number>, percent: number): number {
  const place = ((sorted.length - 1) * percent) / 100;
  const below = Math.floor(place);
  const above = Math.min(below + 1, sorted.length - 1);
  return sorted[below] + (sorted[above] - sorted[below]) * (place - below);
}

/** The values that 10, 50 and 90 % lie below, and the ends. */
export interface Band {
  least: number;
  p10: number;
  p50: number;
  p90: number;
  most: number;
}

/** @param values in any order, not empty */
export function bandOf(values: readonly number[]): Band {
  const sorted = Float64Array.from(values).sort();
  const [p10, p50, p90] = [10, 50, 90].map((percent) => percentile(sorted, percent));
  return { least: sorted[0], p10, p50, p90, most: sorted[sorted.length - 1] };
}
