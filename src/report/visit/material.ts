import type { Known } from './estimate-words.ts';

/** What is less than this from the designed value is not worth a line, however surely it is known: share of that value. */
const LEAST_DIFFERENCE = 0.02;

/** A battery is said to hold less than named from this share of the named capacity on: cells of a bank vary by as much (common practice). */
const LEAST_FADE = 0.03;

/** Of shares that are exactly at the limit, whatever their last bit. */
const ROUNDING = 1e-9;

/**
 * True where an estimate is worth telling as unlike its design: the interval leaves no room for the designed value,
 * and the estimate is 2 % of that value or more from it. Both limits are own choice.
 */
export function isMaterial({ value, low, high, designed }: Known): boolean {
  if (designed === null || (designed >= low && designed <= high)) return false;
  return Math.abs(value - designed) >= (LEAST_DIFFERENCE - ROUNDING) * Math.abs(designed);
}

/** True where a battery holds less than named, by all of its interval and by 3 % or more. */
export function isFaded(capacity: Known): capacity is Known & { designed: number } {
  const { value, high, designed } = capacity;
  return designed !== null && high < designed && value <= (1 - LEAST_FADE + ROUNDING) * designed;
}
