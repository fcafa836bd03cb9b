import type { SiteChanges } from '../apply-changes.ts';
import type { Site } from '../site-schema.ts';
import { type AskedLimits, brokenLimits, type LimitKey, limitsOf, type SourcedLimits } from './limits.ts';
import type { Finished } from './remembered.ts';
import { runningCostOf } from './score.ts';
import { inYears, type YearOutcome } from './year-outcome.ts';

/** A variant that was run at the step of the figures, held against the limits. */
export interface FinishedVariant {
  changes: SiteChanges;
  outcome: YearOutcome;
  broken: LimitKey[];
}

/**
 * The best of what a search has finished, for when it is stopped; the first that was run is today's, which the limits
 * come from that nobody has stated.
 * @param isChoice which changes are choices of the search
 * @param cost what is to be least: all that is paid, or what is paid after the start
 * @returns today's, the others from the best to the worst (those that keep all limits first), and the limits;
 *   null where nothing is finished
 */
export function bestFinished(
  finished: readonly Finished[],
  { site, stepMin, limits }: { site: Site; stepMin: number; limits: AskedLimits },
  isChoice: (changes: SiteChanges) => boolean,
  cost: 'all' | 'running',
): { today: FinishedVariant; others: FinishedVariant[]; limits: SourcedLimits } | null {
  const good = finished.flatMap(({ stepMin: step, changes, attempt }) =>
    step === stepMin && !Array.isArray(attempt) && isChoice(changes)
      ? [{ changes, outcome: inYears(attempt, site.period.days) }]
      : [],
  );
  if (good.length === 0) return null;
  const sourced = limitsOf(site, limits, good[0].outcome);
  const [today, ...others] = good.map((one) => ({
    ...one,
    broken: brokenLimits(one.outcome, sourced.limits),
  }));
  const costOf = ({ outcome }: FinishedVariant) =>
    cost === 'all' ? outcome.lifeCycleCost : runningCostOf(outcome);
  others.sort((a, b) => a.broken.length - b.broken.length || costOf(a) - costOf(b));
  return { today, others, limits: sourced };
}
