import type { StepColumns } from '../sim/columns.ts';
import type { Controls } from '../sim/controls.ts';
import type { Inputs } from '../sim/inputs.ts';
import type { Ledger } from '../sim/ledger.ts';
import type { LossFit } from '../sim/loss-fit.ts';
import type { Plant } from '../sim/plant.ts';
import type { ArrayYield } from './array-yields.ts';
import type { FuelBound } from './bound/fuel-bound.ts';
import type { ClimateDecision } from './climate-decision.ts';
import type { DesignCheck } from './design-checks/check.ts';
import type { Issue } from './issue.ts';
import type { Money } from './money.ts';
import type { DataSheet, TimeAxis } from './series.ts';
import type { StartStory } from './why-start.ts';

/** A site with all its alternatives simulated: everything that the report floor shows. */
export interface Study {
  site: SiteHeading;
  axis: TimeAxis;
  /** the site's clock, for labels: IANA name or fixed offset */
  timeZone: string;
  /** the first is the one the others are compared with */
  alternatives: AlternativeResult[];
  /** data sheets of the files that were read */
  sheets: DataSheet[];
  /** doubts about the inputs, none of them an error */
  doubts: Issue[];
  /** what made it */
  made: { version: string; inputsHash: string };
}

export interface SiteHeading {
  name: string;
  note: string;
  latDeg: number;
  lonDeg: number;
  currency: string;
}

export interface AlternativeResult {
  name: string;
  /** the designer's words for it; may be empty */
  note: string;
  /** what differs from the site as filed */
  changes: Change[];
  plant: Plant;
  controls: Controls;
  inputs: Inputs;
  ledger: Ledger;
  columns: StepColumns;
  money: Money;
  /** what each array and other source offers by month, and what keeps the rest from the site */
  yields: ArrayYield[];
  /** the loss curve through the inverter's points of efficiency; null where the site gives the losses themselves */
  efficiencyFit: LossFit | null;
  /** to the end of the battery's life if every year is like this one; null where the site states no wear */
  batteryLifeYears: number | null;
  /** the seven days with the least margin; null for runs shorter than a week */
  darkWeek: DarkWeek | null;
  /** why single runs started, where the site was run again to find out */
  startStories?: StartStory[];
  /** its cabinet with and without heater, cooler, insulation and sun, where it was run again to find out */
  climate?: ClimateDecision;
  /** the least fuel with which the same could have been served, where it was asked for and there is a generator */
  bound?: FuelBound;
  /** rules of design that it was held against; none where it was only run again to compare with */
  checks: DesignCheck[];
}

/** One changed value of the site file: where, what it was, what it is. */
export interface Change {
  path: string;
  from: unknown;
  to: unknown;
}

/** Seven days in a row, by steps from `fromStep` (included) to `toStep` (not included). */
export interface DarkWeek {
  fromStep: number;
  toStep: number;
  loadKwh: number;
  arrayKwh: number;
  generatorKwh: number;
  unservedKwh: number;
}
