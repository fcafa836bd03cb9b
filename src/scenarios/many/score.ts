import { excessOf, type Limits } from './limits.ts';
import type { YearOutcome } from './year-outcome.ts';

/** How good a variant is: first that it keeps the limits, then what it costs. */
export interface Score {
  /** how far beyond the limits, 0: all are kept */
  excess: number;
  /** what running it costs over the study, present value */
  cost: number;
}

/** What settings can change of the life-cycle cost: all of it but the capital. */
export function runningCostOf({
  lifeCycleCost,
  capital,
}: Pick<YearOutcome, 'lifeCycleCost' | 'capital'>): number {
  return lifeCycleCost - capital;
}

export function scoreOf(outcome: YearOutcome, limits: Limits): Score {
  return { excess: excessOf(outcome, limits), cost: runningCostOf(outcome) };
}

/** Negative where the first is better; exact ties are 0, so that whichever was found first stays. */
export function byScore(a: Score, b: Score): number {
  return a.excess !== b.excess ? a.excess - b.excess : a.cost - b.cost;
}
