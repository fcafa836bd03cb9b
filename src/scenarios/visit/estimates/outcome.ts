import type { Estimate, Estimated } from '../visit.ts';
import type { LogView } from './log-view.ts';
import { tQuantile95 } from './t-quantile.ts';

type Made = Extract<Estimate, { value: number }>;
type Refused = Extract<Estimate, { value: null }>;

/** A value whose error is near normal: its 90 % interval by Student's t. */
export interface Fitted {
  value: number;
  /** standard error, in the unit of the value */
  error: number;
  /** degrees of freedom: independent parts of the log less what was fitted, >= 1 */
  freedom: number;
}

/** What an estimate says beside its interval. */
export type Told = Pick<Made, 'designed' | 'basis'> & Partial<Pick<Made, 'fromS' | 'toS'>>;

export function fitted(key: Estimated, { value, error, freedom }: Fitted, view: LogView, told: Told): Made {
  const half = tQuantile95(freedom) * error;
  return within(key, value, [value - half, value + half], view, told);
}

export function within(
  key: Estimated,
  value: number,
  [low, high]: readonly [number, number],
  { startS, endS }: LogView,
  { designed, basis, fromS = startS, toS = endS }: Told,
): Made {
  return { key, value, low, high, designed, basis, fromS, toS };
}

export function refused(key: Estimated, why: Refused['why'], lacks: string): Refused {
  return { key, value: null, why, lacks };
}
