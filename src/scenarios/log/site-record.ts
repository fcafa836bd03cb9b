import type { Issue } from '../issue.ts';
import type { TimeAxis } from '../series.ts';

/**
 * What a site's own recorder may hold, by what it measures; powers are means of a step, levels stand at its end.
 * Signs are ours, however the file has them: battery power is positive while it charges.
 */
export const RECORDED = [
  'socFrac', // shown state of charge, 0 to 1, at the end of the step
  'loadKw', // all phases together, AC side [kW]
  'load1Kw', // one phase [kW]
  'load2Kw',
  'load3Kw',
  'arrayKw', // what all arrays gave the site: behind their controllers or inverters [kW]
  'batteryKw', // DC side, charging positive [kW]
  'generatorKw', // AC side [kW]
  'generatorOn', // share of the step in which the engine ran, 0 to 1
  'fuelL', // in the tank, at the end of the step [L]
  'cabinetC', // air in the cabinet, at the end of the step [°C]
  'cellC', // battery cells, at the end of the step [°C]
  'outsideC', // outside air, mean [°C]
  'sunWPerM2', // global horizontal irradiance, mean [W/m²]
] as const;

export type Recorded = (typeof RECORDED)[number];

/** A site's log on one axis of equal steps, the clock put right, NaN where nothing is known. */
export interface SiteRecord {
  axis: TimeAxis;
  /** those that the file has: value i belongs to step i */
  columns: Partial<Record<Recorded, Float64Array>>;
  /** output of single arrays by their names in the site file [kW]; may be empty */
  arraysKw: Record<string, Float64Array>;
  sheet: RecordSheet;
}

/** What is known about a log that was read. */
export interface RecordSheet {
  file: string;
  /** how its times were read, in words ('+01:00, stamps at interval end') */
  timeZone: string;
  rows: number;
  /** by column that was read, in the order of the site file */
  columns: RecordedColumn[];
  /** stretches with no row at all, longest first */
  gaps: { startS: number; steps: number }[];
  duplicates: number;
  /** rows whose time goes back, where the recorder or its clock was set anew */
  resets: number;
  clock: ClockFinding;
}

export interface RecordedColumn {
  header: string;
  /** a key of RECORDED, or 'array:' and the name of an array */
  is: string;
  /** as the file has it */
  unit: string;
  /** sums of energy [kWh] or means, in our unit */
  total: number;
  lowest: number;
  highest: number;
  /** steps without a value */
  missing: number;
  /** the least distance between values: what it was rounded to, in our unit; 0: not to be seen */
  quantum: number;
  /** whether signs were turned because the file said so, or because the data did */
  turned: 'no' | 'declared' | 'found';
}

/** What the sun says of a recorder's clock; null where no array or sun column could tell. */
export interface ClockFinding {
  /** put right: this was added to the file's times at the start of the log, and this much more a day [h, h/day] */
  addedH: number;
  driftHPerDay: number;
  /** how it was found: by the sun, not at all, or nothing to correct by */
  by: 'sun' | 'right' | 'unknown';
}

export interface RecordResult {
  /** null with an error among the issues */
  record: SiteRecord | null;
  issues: Issue[];
}
