import { rankCorrelation } from './rank-correlation.ts';
import { byScore, type Score } from './score.ts';

/** Whether a coarse step may choose among variants: it was tried, and how alike it ranks. */
export interface CoarseTrial {
  stepMin: number;
  /** variants ranked at both steps */
  variants: number;
  /** Spearman's rank correlation of their scores */
  rank: number;
  /** it ranks well enough to be used first */
  isUsed: boolean;
}

/** Coarse steps that may go first, the coarsest first [min]. */
const COARSE_STEPS = [60, 30, 15];

/** A correlation of ranks from which a coarse step is trusted to choose what is looked at finely. */
const GOOD_RANK = 0.9;

/**
 * Tries coarse steps on variants that have been scored at the fine one, and stops at the first that ranks well.
 * @param scoresAt scores of the same variants at a step
 */
export async function tryCoarse(
  fine: readonly Score[],
  fineStepMin: number,
  scoresAt: (stepMin: number) => Promise<Score[]>,
): Promise<CoarseTrial[]> {
  const trials: CoarseTrial[] = [];
  for (const stepMin of COARSE_STEPS.filter((step) => step >= 2 * fineStepMin)) {
    const rank = rankCorrelation(orderOf(fine), orderOf(await scoresAt(stepMin)));
    trials.push({ stepMin, variants: fine.length, rank, isUsed: rank >= GOOD_RANK });
    if (rank >= GOOD_RANK) break;
  }
  return trials;
}

/** Places of scores in their own order, so that limits and cost count together; equal ones share a place. */
function orderOf(scores: readonly Score[]): number[] {
  return scores.map((score) => scores.filter((other) => byScore(other, score) < 0).length);
}
