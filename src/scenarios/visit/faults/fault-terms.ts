import type { Recorded } from '../../log/site-record.ts';
import type { FaultKind } from '../visit.ts';

/**
 * What each fault must be like to be told: claimed from `leastSize` on, found in nine cases of ten from `statedSize`
 * and `stated` on (tests/scenarios/visit/fault-detection.test.ts). The sizes are choices: above what a recorder's
 * noise and rounding, the weather and a plant that differs from its file in load and arrays make by themselves.
 */
export interface FaultTerms {
  leastSize: number;
  statedSize: number;
  /** in the unit of `size` */
  unit: '0 to 1' | 'kW' | '°C' | '1/day' | 'L/day';
  /** for how long: of what there must be so many */
  duration: number;
  of: 'days-each-side' | 'hours' | 'runs' | 'full-charges' | 'steps' | 'nights-each-side' | 'days';
}

export const FAULT_TERMS: Record<FaultKind, FaultTerms> = {
  // days on which the array was not held back for an hour; or one string, if that is more: an eighth or more of most arrays
  'dead-string': { leastSize: 0.07, statedSize: 0.12, unit: '0 to 1', duration: 7, of: 'days-each-side' },
  // mean of what the phase carries at such times otherwise
  'phase-missing': { leastSize: 0.05, statedSize: 0.1, unit: 'kW', duration: 12, of: 'hours' },
  // what is missing of the charging power, as a share of it; chargers that are as much weaker are found too, though with
  // a load beside them the generator often limits them first
  'weak-charging': { leastSize: 0.15, statedSize: 0.3, unit: '0 to 1', duration: 3, of: 'runs' },
  // through most of the log; common practice: meters that count current are off by up to 0.01 a day
  'soc-drift': { leastSize: 0.006, statedSize: 0.012, unit: '1/day', duration: 6, of: 'full-charges' },
  // above a step's largest energy at a small bank, and four times a meter's usual rounding
  'soc-jump': { leastSize: 0.04, statedSize: 0.06, unit: '0 to 1', duration: 1, of: 'steps' },
  'heater-off': { leastSize: 1.5, statedSize: 2.5, unit: '°C', duration: 12, of: 'hours' },
  'cooler-off': { leastSize: 2, statedSize: 4, unit: '°C', duration: 12, of: 'hours' },
  // or a share of the usual night load, if that is more: NIGHT_SHARE, twice it stated
  'night-load': { leastSize: 0.08, statedSize: 0.15, unit: 'kW', duration: 10, of: 'nights-each-side' },
  // or a share of the tank, if that is more: TANK_SHARE, twice it stated
  'fuel-loss': { leastSize: 1, statedSize: 2, unit: 'L/day', duration: 7, of: 'days' },
};

/** Least step of the night load, as a share of it. */
export const NIGHT_SHARE = 0.18;
/** Least leak a day, as a share of the tank. */
export const TANK_SHARE = 0.003;

/**
 * What a fault cannot be looked for without: columns, parts of the site (of which nothing is said where it has none),
 * or enough of what tells it.
 */
export type Lack =
  | Recorded
  | `part: ${'arrays' | 'battery' | 'three phases' | 'generator' | 'heater' | 'cooler' | 'tank'}`
  | 'each array by itself'
  | 'each phase by itself'
  | 'the engine running'
  | 'a single generator'
  | 'a lithium battery'
  | 'enough days'
  | 'enough nights'
  | 'enough runs'
  | 'enough full charges';
