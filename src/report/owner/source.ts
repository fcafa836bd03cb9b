import type { Alternative } from '../../scenarios/alternatives.ts';
import type { Money } from '../../scenarios/money.ts';
import type { Site } from '../../scenarios/site-schema.ts';
import type { AlternativeResult, Study } from '../../scenarios/study.ts';
import type { WhatIf } from '../../scenarios/what-if.ts';
import type { StudyView } from '../view.ts';
import type { Speaker } from './speak.ts';

/** What an owner's report is made from. */
export interface OwnerSource {
  study: Study;
  /** the sites of the study's alternatives, in their order */
  alternatives: readonly Alternative[];
  /** place of the one that is proposed */
  proposed: number;
  /** the proposed one run again */
  whatIfs: readonly WhatIf[];
  /** money of every alternative with fuel at twice the price */
  doubled: readonly Money[];
}

/** The same, with all that its parts share. */
export interface OwnerView extends OwnerSource {
  view: StudyView;
  speaker: Speaker;
  result: AlternativeResult;
  site: Site;
  /** whether anything was priced */
  priced: boolean;
  /** length of the run [years of 8760 h]; what is said of a year is a sum over this */
  years: number;
  paper: Document;
}

/** Length of a run [years of 8760 h]. */
export function yearsOf({ ledger }: AlternativeResult): number {
  return (ledger.count * ledger.stepMin) / 60 / 8760;
}

/** Whether a run is a whole year or more, so that months and seasons can be told. */
export function isYear(owner: OwnerView): boolean {
  return owner.years > 0.99 && owner.view.months.length === owner.result.ledger.periods.length;
}

/** Stretches without supply a year, and how long: from the list of them, so that all that is said of them agrees. */
export function interruptionsOf({ ledger }: AlternativeResult) {
  const lengths = ledger.outages.map(({ startH, endH }) => endH - startH);
  return {
    count: lengths.length,
    totalH: lengths.reduce((sum, hours) => sum + hours, 0),
    longestH: lengths.reduce((most, hours) => Math.max(most, hours), 0),
  };
}
