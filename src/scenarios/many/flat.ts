import { runningCostOf } from './score.ts';
import type { CurvePoint, TunedSetting } from './tune-result.ts';
import type { YearOutcome } from './year-outcome.ts';

/** The optimum is called flat where the cost is no more than this above it. */
export const FLAT_FRAC = 0.01;

/** The highest cost that is still within the band around the best. */
export function bandTop(best: Pick<YearOutcome, 'lifeCycleCost' | 'capital'>): number {
  const cost = runningCostOf(best);
  return cost + FLAT_FRAC * Math.abs(cost);
}

/** The stretch of values around the chosen one that cost no more than the band's top and keep the limits. */
export function flatStretch(curve: readonly CurvePoint[], chosen: number, top: number): TunedSetting['flat'] {
  const isFlat = (place: number) => {
    const { cost, broken } = curve[place];
    return place === chosen || (cost !== null && broken.length === 0 && cost <= top);
  };
  let [from, to] = [chosen, chosen];
  while (from > 0 && isFlat(from - 1)) from--;
  while (to < curve.length - 1 && isFlat(to + 1)) to++;
  return { from, to };
}
