import type { Issue } from '../issue.ts';
import type { RecordSheet } from '../log/site-record.ts';
import type { SiteHeading } from '../study.ts';

/**
 * What a site's own log says of it: everything that the report floor shows of a visit. Times are in seconds since
 * 1970 (UTC), shares from 0 to 1, the rest in the units of the names.
 */
export interface Visit {
  site: SiteHeading;
  /** demonstration data, which every page says */
  invented: boolean;
  /** what the site has: nothing is said of the rest */
  parts: { generator: boolean; battery: boolean; array: boolean; cabinet: boolean };
  /** in the site's currency; null where the site file has no price */
  fuelPerL: number | null;
  /** null where the log has no level */
  tank: TankNow | null;
  timeZone: string;
  fromS: number;
  toS: number;
  /** of the log's axis */
  stepMin: number;
  record: RecordSheet;
  comparison: Comparison;
  estimates: Estimate[];
  /** the site as it is at the end of the log, as changes of the site file */
  calibration: Record<string, unknown>;
  faults: Fault[];
  /** faults that could not be looked for, and the columns that are missing or what else there is too little of */
  notLookedFor: { kind: FaultKind; lacks: string }[];
  retune: Retune;
  extensions: Extension[];
  doubts: Issue[];
  made: { version: string; inputsHash: string };
}

/** The tank at the end of the log. */
export interface TankNow {
  levelL: number;
  /** mean of the last four weeks, or of the whole log where that is shorter, deliveries apart [L/day] */
  litresADay: number;
  /** until only what cannot be used is left, at that rate; null where nothing was burnt */
  daysLeft: number | null;
}

/** What can be estimated from a log. */
export const ESTIMATED = [
  'loadFactor', // measured load over that of the site file
  'arrayFactor', // array output over what it should be; all arrays together
  'usableKwh', // capacity of the battery by its own energy and shown charge [kWh]
  'oneWayEfficiency', // of the battery, charging and discharging taken as equal
  'standbyKw', // drawn from the DC bus whatever the load: battery management, controllers, inverters' idle draw, the generator's own standing draw [kW]
  'startSoc', // thresholds of `charge` that are in force, on the shown state of charge
  'stopSoc',
  'chargeKw', // what the generator charges with when nothing else limits it, AC side, all phases [kW]
  'fuelAtRest', // litres an hour at no load [L/h]
  'fuelPerKwh', // litres more for each kWh [L/kWh]
  'coolingWPerK', // air of the cabinet straight to outside, walls and vents together: airToOutsideWPerK [W/K]
  'timeConstantH', // of the battery cells towards the outside, by themselves and through the air [h]
] as const;

export type Estimated = (typeof ESTIMATED)[number];

/** A value with its range of 90 %, or why there is none. */
export type Estimate =
  | {
      key: Estimated;
      value: number;
      /** ends of the interval that holds the truth in nine cases of ten */
      low: number;
      high: number;
      /** the same in the site file; null where it says nothing */
      designed: number | null;
      /** what it rests on: how many of what */
      basis: { count: number; of: 'days' | 'nights' | 'runs' | 'starts' | 'stops' | 'steps' | 'swings' };
      /** part of the log that it is for, where something changed within it; else the whole log */
      fromS: number;
      toS: number;
    }
  | {
      key: Estimated;
      value: null;
      why: 'no-column' | 'too-little' | 'not-told-apart';
      /** columns that are missing, or how much there is and is needed */
      lacks: string;
    };

/** What may be wrong with a site. */
export const FAULTS = [
  'dead-string', // an array gives a fixed share less from some day on
  'phase-missing', // one phase carries nothing while others do
  'weak-charging', // the generator does not reach its charging power
  'soc-drift', // the meter of charge drifts between full charges
  'soc-jump', // the meter of charge jumps
  'heater-off', // cells colder than the heater should let them be
  'cooler-off', // air or cells hotter than the cooler should let them be
  'night-load', // a load that does not switch off at night, from some day on
  'fuel-loss', // the tank falls while the engine stands
] as const;

export type FaultKind = (typeof FAULTS)[number];

export interface Fault {
  kind: FaultKind;
  /** the part that has it: an array's or phase's name; null: the whole */
  part: string | null;
  fromS: number;
  toS: number;
  /** how large: share lost, kW, °C, 1/day of charge, L/day or, at once, L by kind; see `unit` */
  size: number;
  unit: '0 to 1' | 'kW' | '°C' | '1/day' | 'L/day' | 'L';
  /** numbers that speak for it, in the order in which they are told; keys are worded in the report */
  evidence: Record<string, number>;
}

/**
 * Sums that are compared, of the steps in which the log has all of what it has; of a log null where it has no column
 * to tell by.
 */
export interface Sums {
  /** served */
  loadKwh: number | null;
  /** what the arrays gave, not what they could have given */
  arrayKwh: number | null;
  generatorKwh: number | null;
  /** see `fuelFrom` */
  fuelL: number | null;
  /** part steps by the running contact; by its power alone, steps in which it ran are taken as whole ones */
  runH: number | null;
  starts: number | null;
  lowestSoc: number | null;
}

export interface Comparison {
  /** by the designer's file: its load, its weather year, its settings */
  designed: Sums;
  /** the log */
  ran: Sums;
  /** the simulator with all that was estimated: what is left between it and the log is not explained */
  calibrated: Sums;
  /** share of the period in which the log has what is compared */
  coverage: number;
  /** how the log's fuel is known: by its tank, by the site file's fuel curve at the logged power, or not */
  fuelFrom: 'tank' | 'curve' | null;
  /** steps without a value that were filled: load by the designed one times what was measured, sun by the designed */
  filled: { loadSteps: number; sunSteps: number };
  /** true where every difference is within what the recorder can tell */
  asDesigned: boolean;
  /** from `designed` to `ran`, in the order in which they were put in; each is what it changed, with those before in */
  causes: Cause[];
  /** energy of the generator day by day, local, from the start of the log; null where there is nothing to compare */
  days: {
    startS: number[];
    designedKwh: (number | null)[];
    ranKwh: (number | null)[];
    calibratedKwh: (number | null)[];
  };
}

export const CAUSES = [
  'load', // more or less load than was designed for
  'sun', // less sun than the weather year
  'array', // array below what the sun gives
  'sun-or-array', // one or the other: without a column for the sun they are not told apart
  'battery', // smaller or less efficient than named
  'standby',
  'thresholds', // other ones in force than the sheet says
  'charging', // the generator charges with less than is set
  'hours', // restricted hours or exercise runs not as set
  'cabinet', // hotter or colder than modelled
  'engine', // burns more or less than its fuel curve
  'unexplained',
] as const;

export interface Cause {
  kind: (typeof CAUSES)[number];
  /** what it changed; null where the log cannot tell what is left: of 'unexplained' only, and fuel of all */
  generatorKwh: number | null;
  fuelL: number | null;
  runH: number | null;
}

/** New settings for the calibrated plant. */
export interface Retune {
  /** null: change nothing, or it could not be tried; see `why` */
  changes: { path: string; from: unknown; to: unknown }[] | null;
  why: 'found' | 'nothing-better' | 'not-calibrated' | 'no-generator' | 'too-short' | 'not-asked';
  /** saved in 30.44 days, with its range over the estimates' intervals; all 0 where nothing is to be changed */
  litresAMonth: Range;
  hoursAMonth: Range;
  startsAMonth: Range;
}

export interface Range {
  value: number;
  low: number;
  high: number;
}

/** An alternative of the site file, tried on the calibrated site. */
export interface Extension {
  name: string;
  note: string;
  /** a year of the calibrated site without and with it */
  before: Pick<Sums, 'generatorKwh' | 'fuelL' | 'runH' | 'starts' | 'lowestSoc'> & { unservedKwh: number };
  after: Pick<Sums, 'generatorKwh' | 'fuelL' | 'runH' | 'starts' | 'lowestSoc'> & { unservedKwh: number };
}
