import { type LimitKey, type Limits, measured } from './limits.ts';
import { runningCostOf } from './score.ts';
import type { YearOutcome } from './year-outcome.ts';

/** By how much a coarse step may say too much: what it said too much of variants that were run at both steps. */
export interface CoarseMargin {
  /** shares */
  cost: number;
  fuel: number;
  /** in the units of the limits */
  limits: Record<LimitKey, number>;
}

/** What was seen on a sample is allowed for by so much more. */
const SAFETY = 1.5;

/** The margin seen on variants run at both steps, in the same order. */
export function coarseMargin(fine: readonly YearOutcome[], coarse: readonly YearOutcome[]): CoarseMargin {
  const most = (over: (fine: YearOutcome, coarse: YearOutcome) => number) =>
    SAFETY * Math.max(0, ...fine.map((one, i) => over(one, coarse[i])));
  const share = (of: (outcome: YearOutcome) => number) =>
    most((one, other) => (of(one) > 0 ? of(other) / of(one) - 1 : 0));
  const limit = (key: LimitKey) => most((one, other) => measured(other)[key] - measured(one)[key]);
  return {
    cost: share(runningCostOf),
    fuel: share(({ fuelL }) => fuelL),
    limits: {
      unservedKwh: limit('unservedKwh'),
      startsADay: limit('startsADay'),
      runHours: limit('runHours'),
      nightHours: limit('nightHours'),
      depth: limit('depth'),
    },
  };
}

/** What a fine run could at best show of a variant that has been run coarsely. */
export interface Hoped {
  runningCost: number;
  fuelL: number;
  unservedKwh: number;
  keepsLimits: boolean;
}

export function hopeOf(coarse: YearOutcome, margin: CoarseMargin, limits: Limits): Hoped {
  const figures = measured(coarse);
  const less = (value: number, share: number) => value - Math.abs(value) * (1 - 1 / (1 + share));
  const keeps = (key: LimitKey) => {
    const limit = limits[key];
    return limit === null || figures[key] - margin.limits[key] <= limit;
  };
  return {
    runningCost: less(runningCostOf(coarse), margin.cost),
    fuelL: less(coarse.fuelL, margin.fuel),
    unservedKwh: Math.max(0, coarse.unservedKwh - margin.limits.unservedKwh),
    keepsLimits: (Object.keys(limits) as LimitKey[]).every(keeps),
  };
}
