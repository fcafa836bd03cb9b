import type { SiteChanges } from '../apply-changes.ts';
import type { Issue } from '../issue.ts';
import type { SiteHeading } from '../study.ts';
import type { CoarseTrial } from './coarse-step.ts';
import type { LimitKey, SourcedLimits } from './limits.ts';
import type { Setting } from './settings.ts';
import type { YearOutcome } from './year-outcome.ts';

/** The generator rules that cost least, and how much it matters that they are just these. */
export interface TuneResult {
  site: SiteHeading;
  /** the alternative whose rules were searched; null: the site as filed */
  alternative: string | null;
  /** years over which it costs least, and the simulated period [d] */
  years: number;
  days: number;
  /** step of every figure shown [min] */
  stepMin: number;
  limits: SourcedLimits;
  settings: TunedSetting[];
  today: YearOutcome;
  chosen: YearOutcome;
  /** limits that today's rules break, and the chosen ones: then none that keeps them was found */
  brokenToday: LimitKey[];
  brokenChosen: LimitKey[];
  /** the chosen rules as changes of the site file */
  changes: SiteChanges;
  /** entries of the site's own calendar, which stay as they are */
  calendarEntries: number;
  /** how the chosen set does against today's in years that it was not chosen for */
  otherYears: OtherYear[];
  effort: TuneEffort;
  doubts: readonly Issue[];
  made: { version: string; inputsHash: string };
}

/** One setting: its chosen value, and what its other values cost with all others as chosen. */
export interface TunedSetting extends Pick<Setting, 'rule' | 'season' | 'values' | 'today'> {
  chosen: number;
  /** by its values */
  curve: CurvePoint[];
  /** first and last of the values around the chosen one within 1 % of its cost and within all limits */
  flat: { from: number; to: number };
}

export interface CurvePoint {
  /** running cost over the study; null: it does not fit the other settings */
  cost: number | null;
  /** limits that it breaks */
  broken: LimitKey[];
}

interface TuneEffort {
  /** runs at the step of the figures, and at the coarse step */
  fineRuns: number;
  coarseRuns: number;
  trials: CoarseTrial[];
  /** sets of values there are in all */
  points: number;
  /** the search stopped because it had no runs left, not because nothing was better */
  ranOut: boolean;
}

/** What of a year is another than in the site file. */
export type YearKind = 'more load' | 'less load' | 'less sun';

export interface OtherYear {
  kind: YearKind;
  /** running cost over the study if all years were so */
  today: number;
  chosen: number;
  /** limits that the chosen set breaks then; those taken from today's rules are taken anew */
  broken: LimitKey[];
}
