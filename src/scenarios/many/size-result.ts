import type { SiteChanges } from '../apply-changes.ts';
import type { Issue } from '../issue.ts';
import type { SiteHeading } from '../study.ts';
import type { Catalogue } from './catalogue.ts';
import type { CoarseTrial } from './coarse-step.ts';
import type { LimitKey, SourcedLimits } from './limits.ts';
import type { Size, SizeLists } from './sizes.ts';
import type { YearOutcome } from './year-outcome.ts';

/** One choice of sizes with its figures at the step of the result. */
export interface Sized {
  size: Size;
  changes: SiteChanges;
  outcome: YearOutcome;
  /** all that is paid later, as an even payment every year of the study */
  yearlyCost: number;
  broken: LimitKey[];
}

/** A choice as it is drawn in the background: at the coarse step, where it was not looked at more finely. */
export interface CloudPoint {
  capital: number;
  yearlyCost: number;
  fuelL: number;
  unservedKwh: number;
  keepsLimits: boolean;
}

/** Least fuel for the energy that goes unserved, among all choices that cost no more than so much at the start. */
export interface FuelFrontier {
  /** null: whatever they cost */
  mostCapital: number | null;
  sizes: Sized[];
}

/** Sizes weighed against each other: what more capital saves every year, and what fuel buys. */
export interface SizeResult {
  site: SiteHeading;
  /** the alternative that sizes were varied of; null: the site as filed */
  alternative: string | null;
  years: number;
  discountRate: number;
  days: number;
  /** step of every figure but those of the cloud [min] */
  stepMin: number;
  limits: SourcedLimits;
  lists: SizeLists;
  /** the designer's own choice: the site's sizes */
  own: Sized;
  /** least life-cycle cost of those that keep the limits; null: none does */
  cheapest: Sized | null;
  /** capital against yearly cost, by rising capital; all keep the limits */
  frontier: Sized[];
  fuelFrontiers: FuelFrontier[];
  /** all choices by capital, those that break limits or are beaten too, where they are few; null: they are many */
  all: Sized[] | null;
  cloud: CloudPoint[];
  prices: { file: string; catalogue: Catalogue; fromSite: string[] };
  effort: {
    choices: number;
    fineRuns: number;
    coarseRuns: number;
    trials: CoarseTrial[];
  };
  doubts: readonly Issue[];
  made: { version: string; inputsHash: string };
}
