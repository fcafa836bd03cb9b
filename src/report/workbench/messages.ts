import type { Issue } from '../../scenarios/issue.ts';
import type { DarkWeek } from '../../scenarios/study.ts';
import type { StartCause } from '../../sim/causes.ts';

/** What page and worker tell each other: plain data only. */

/** What the map of the year may show. */
export const SHOWS = ['soc', 'generator', 'load', 'array', 'unserved', 'cabinet'] as const;
export type Shows = (typeof SHOWS)[number];

/** The map of the year: minutes of a cell, and cells of a line. */
export const CELL_MIN = 10;
export const CELLS_A_WEEK = (7 * 1440) / CELL_MIN;

/** Changes on trial: path and value, as in an alternative. */
export type Changes = Record<string, unknown>;

/** A site file as it was read. With an error among the issues the last good one stays in hand. */
export interface Taken {
  ok: boolean;
  issues: Issue[];
  /** null where no file has been good yet */
  site: SiteFacts | null;
}

export interface SiteFacts {
  name: string;
  note: string;
  currency: string;
  invented: boolean;
  /** instant of the first step [s since 1970 UTC] and its local time counted as if it were UTC [ms] */
  startS: number;
  localMs: number;
  stepMin: number;
  count: number;
  alternatives: AlternativeHead[];
  /** files that were read, as lines of text */
  sheets: string[][];
  dangers: { battery: boolean; array: boolean; generator: boolean };
}

interface AlternativeHead {
  name: string;
  note: string;
  capital: number;
  /** what differs from the site as filed, in words */
  words: string[];
}

export interface PictureRequest {
  /** place of the alternative in hand; 0: the site as filed */
  index: number;
  trial: Changes;
  shows: Shows;
  /** pixels across the drawings of state of charge and of the span */
  columns: number;
  spanColumns: number;
  /** steps looked at closely; null: the dark week */
  span: { fromStep: number; toStep: number } | null;
  /** false while something is dragged: what takes long is left for later */
  full: boolean;
}

export interface Picture {
  weeks: WeekCells;
  soc: SocBand | null;
  levers: LeverFacts;
  /** the same without the trial */
  baseLevers: LeverFacts;
  rows: FigureRow[];
  span: SpanPicture;
  darkWeek: DarkWeek | null;
  /** what the trial changes, in words; empty without a trial */
  trialWords: string[];
  /** what happens, in sentences; empty while dragging */
  sentences: string[];
  /** the simulation alone [ms] */
  simulatedMs: number;
}

/** The year in lines, a week each from Monday: 10 minutes a cell. */
export interface WeekCells {
  weeks: number;
  /** local day number (since 1970) of the first Monday */
  firstDay: number;
  /** 0 to 250 from nothing to the most; 255: outside the period */
  level: Uint8Array;
  /** 0 nothing, 1 + start cause where the generator ran, 100 where load was unserved */
  mark: Uint8Array;
  /** where cells run on evenly from a step: more than one where the clock is changed */
  evenFrom: { step: number; cell: number }[];
  /** what level 250 stands for, and level 0 */
  most: number;
  least: number;
  unit: string;
}

/** State of charge through the year: lowest and highest in each column of pixels. */
export interface SocBand {
  lowest: Float32Array;
  highest: Float32Array;
}

/** Where the levers stand. null: the site has no such thing. */
export interface LeverFacts {
  startSoc: number | null;
  stopSoc: number | null;
  urgentSoc: number | null;
  cutoffSoc: number | null;
  modules: number | null;
  arrays: { name: string; kWp: number }[];
  ratedKw: number | null;
  fuel: { kW: number; lPerH: number }[];
  fuelPerL: number;
}

export interface FigureRow {
  key: string;
  label: string;
  part: boolean;
  /** in hand, and on trial (the same text where nothing is on trial) */
  text: string;
  trialText: string;
  differenceText: string;
  /** true: the trial is better, false: worse, null: neither */
  better: boolean | null;
}

export interface SpanPicture {
  fromStep: number;
  toStep: number;
  /** local time of its first step counted as if it were UTC [ms], and its title in words */
  localMs: number;
  title: string;
  /** mean in each column of pixels [kW]; what supplies is stacked in the order given */
  loadKw: Float32Array;
  stack: { name: string; kw: Float32Array }[];
  chargeKw: Float32Array;
  /** at the end of each column, 0 to 1; null without a battery */
  soc: Float32Array | null;
  runs: SpanRun[];
}

export interface SpanRun {
  /** place in the list of runs */
  run: number;
  cause: StartCause;
  /** share of the span at which it starts and ends, 0 to 1 */
  from: number;
  to: number;
  text: string;
}

/** One line of the comparison of all alternatives. */
export interface ComparedRow {
  key: string;
  label: string;
  part: boolean;
  decides: boolean;
  texts: string[];
  differences: string[];
  best: boolean[];
  /** for bars: share of the largest, 0 to 1; null where it has none */
  shares: (number | null)[];
}

export interface Compared {
  names: string[];
  rows: ComparedRow[];
  /** of each alternative */
  sentences: string[][];
}

export interface Told {
  heading: string;
  why: string[];
  remedies: string[];
  note: string;
}

/** What is in a file that somebody has dropped, and how it could be used. */
export interface LookedAtFile {
  file: string;
  kind: 'site' | 'load' | 'weather' | 'log' | 'none';
  lines: string[];
  issues: Issue[];
  /** entry for the site file */
  entry: Record<string, unknown> | null;
}

/** One value of the site file, or a group of them. */
export interface Field {
  path: string;
  steps: (string | number)[];
  title: string;
  unit: string;
  help: string;
  kind: 'number' | 'text' | 'flag' | 'choice' | 'code' | 'group' | 'list';
  least?: number;
  most?: number;
  options?: (string | number)[];
  /** as it is now, as text */
  text: string;
  /** default in words; '' where a value is needed */
  fallback: string;
  /** stated in the file, or changed by the alternative in hand */
  given: boolean;
  changed: boolean;
  /** may be taken out */
  removable: boolean;
  /** a group or an item that may be put in, with what is put in */
  absent: boolean;
  seed?: unknown;
  children: Field[];
}
