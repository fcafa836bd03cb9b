import type { LogView } from './log-view.ts';
import type { Fitted } from './outcome.ts';

/** Days with less than this share of their steps known do not count. */
const KNOWN = 0.5;
/** Stretches on either side of a change are at least so long [days]. */
const LEAST_STRETCH = 14;
/** A change is one when the two sides differ by at least this share, and by so many standard errors. */
const LEAST_CHANGE = 0.05;
const SURE_ERRORS = 5;
/** Days next to one another are alike: they are taken together by weeks. */
const BLOCK_DAYS = 7;
/** Fewer weeks are too few for an interval. */
export const LEAST_BLOCKS = 4;

/** Energy of one day, measured and expected, in the same steps; or any two sums whose ratio is looked for. */
export interface Day {
  day: number;
  measured: number;
  expected: number;
}

export interface DailyRatio extends Fitted {
  days: number;
  fromS: number;
}

/**
 * Measured over expected energy, of the latest stretch of the log in which it did not change.
 * @param expected [kW]; @param counts 1 in steps that count, both values known
 * @returns null where there are too few weeks; how many days there are
 */
export function dailyRatio(
  view: LogView,
  measured: Float64Array,
  expected: Float64Array,
  counts: Uint8Array,
): { ratio: DailyRatio | null; days: number } {
  const days = daysOf(view, measured, expected, counts);
  const from = lastChange(days);
  const last = days.slice(from);
  const whole = fromDays(last);
  if (whole === null) return { ratio: null, days: days.length };
  const fromStep = from === 0 ? 0 : view.day.indexOf(days[from].day);
  return {
    ratio: { ...whole, days: last.length, fromS: view.startS + fromStep * view.stepS },
    days: days.length,
  };
}

function daysOf(view: LogView, measured: Float64Array, expected: Float64Array, counts: Uint8Array): Day[] {
  const { day, count } = view;
  const days: Day[] = [];
  let known = 0;
  let wanted = 0;
  let now: Day = { day: day[0], measured: 0, expected: 0 };
  const close = () => {
    if (now.expected > 0 && known >= KNOWN * wanted) days.push(now);
  };
  for (let i = 0; i < count; i++) {
    if (day[i] !== now.day) {
      close();
      now = { day: day[i], measured: 0, expected: 0 };
      known = 0;
      wanted = 0;
    }
    if (counts[i] === 1) wanted++;
    if (counts[i] === 0 || Number.isNaN(measured[i]) || Number.isNaN(expected[i])) continue;
    known++;
    now.measured += measured[i];
    now.expected += expected[i];
  }
  close();
  return days;
}

/** Ratio of the sums, with an error by leaving out one block of days after the other. */
function fromDays(days: readonly Day[]): Fitted | null {
  if (days.length === 0) return null;
  const measured = days.reduce((sum, day) => sum + day.measured, 0);
  const expected = days.reduce((sum, day) => sum + day.expected, 0);
  const value = measured / expected;
  const blocks = new Map<number, { left: number; expected: number }>();
  for (const day of days) {
    const number = Math.floor((day.day - days[0].day) / BLOCK_DAYS);
    const block = blocks.get(number) ?? { left: 0, expected: 0 };
    block.left += day.measured - value * day.expected;
    block.expected += day.expected;
    blocks.set(number, block);
  }
  const count = blocks.size;
  if (count < LEAST_BLOCKS) return null;
  let squares = 0;
  // how far the ratio moves without each of them
  for (const block of blocks.values()) squares += (block.left / (expected - block.expected)) ** 2;
  return { value, error: Math.sqrt((squares * (count - 1)) / count), freedom: count - 1 };
}

/** The day from which on the ratio did not change any more: the first, or the last clear change. */
export function lastChange(days: readonly Day[]): number {
  let from = 0;
  for (;;) {
    const change = clearestChange(days.slice(from));
    if (change === 0) return from;
    from += change;
  }
}

/** Where the ratio of days changes most clearly, or 0. */
function clearestChange(days: readonly Day[]): number {
  let best = 0;
  let most = SURE_ERRORS;
  for (let at = LEAST_STRETCH; at <= days.length - LEAST_STRETCH; at++) {
    const [before, after] = [days.slice(0, at), days.slice(at)].map((side) => stretchRatio(side));
    const change = Math.abs(after.ratio - before.ratio);
    if (change < LEAST_CHANGE * Math.max(before.ratio, after.ratio)) continue;
    const errors = change / Math.hypot(before.error, after.error);
    if (errors > most) {
      most = errors;
      best = at;
    }
  }
  return best;
}

/** Ratio of a stretch and its error, with neighbouring days taken as alike as they are at a lag of one day. */
function stretchRatio(days: readonly Day[]): { ratio: number; error: number } {
  const expected = days.reduce((sum, day) => sum + day.expected, 0);
  const ratio = days.reduce((sum, day) => sum + day.measured, 0) / expected;
  const left = days.map((day) => day.measured - ratio * day.expected);
  const squares = left.reduce((sum, value) => sum + value * value, 0);
  const products = left.reduce((sum, value, i) => sum + (i > 0 ? value * left[i - 1] : 0), 0);
  const alike = squares > 0 ? Math.min(0.8, Math.max(0, products / squares)) : 0;
  const error = (Math.sqrt(squares) / expected) * Math.sqrt((1 + alike) / (1 - alike));
  // days that are alike to the last digit would make any change a clear one
  return { ratio, error: Math.max(error, 1e-4 * ratio) };
}
