import type { Issue } from '../../scenarios/issue.ts';
import type { AskedLimits } from '../../scenarios/many/limits.ts';
import type { Rule, Season } from '../../scenarios/many/settings.ts';
import type { AskedSizes } from '../../scenarios/many/sizes.ts';
import type { Changes } from './messages.ts';

/** What page and workers tell each other about studies of many runs: plain data only. */

export const STUDIES = ['sweep', 'tune', 'size', 'stress'] as const;
export type StudyKind = (typeof STUDIES)[number];

/** The site file that a study is of. */
export interface StudySite {
  text: string;
  file: string;
  /** what outcomes belong to: the site as filed and its files, whatever its alternatives are */
  key: string;
}

interface Asked {
  /** another step than the site file's [min] */
  stepMin?: number;
}

/** As on the command line. */
export interface SweepAsked extends Asked {
  kind: 'sweep';
  vary: string[];
  prices: string[];
  sample?: number;
  unserved?: number;
}

export interface TuneAsked extends Asked {
  kind: 'tune';
  alternative?: string;
  rules: Rule[] | null;
  seasons: Season[];
  limits: AskedLimits;
  runs?: number;
}

export interface SizeAsked extends Asked {
  kind: 'size';
  alternative?: string;
  sizes: AskedSizes;
  limits: AskedLimits;
  /** null: the generic one that comes with the workbench */
  catalogue: { file: string; text: string } | null;
}

export interface StressAsked extends Asked {
  kind: 'stress';
  /** only this alternative beside the site as filed; left out: all */
  only?: string;
  runs?: number;
  seed?: string;
}

export type StudyAsked = SweepAsked | TuneAsked | SizeAsked | StressAsked;

export interface StudyProgress {
  doing: string;
  done: number;
  of: number;
  /** finished by this study in all */
  finished: number;
  /** until what is under way is done, as far as that can be told [s] */
  leftS: number | null;
}

/** One variant that can be made an alternative. */
export interface Choice {
  /** name of the alternative that it would be */
  name: string;
  changes: Changes;
  /** beside the site as filed */
  capital: number;
  figures: string[];
  /** "as filed", "cheapest that serves enough", a limit that is broken */
  marks: string;
}

/** Drawings and tables of a study, as the report has them. */
export interface ShownPart {
  html: string;
  /** place among the choices of each mark in a drawing that can be pressed; empty where none can */
  cells: number[];
  /** title under which it is folded away */
  fold?: string;
}

export interface ShownStudy {
  kind: StudyKind;
  /** the site that it is of */
  key: string;
  /** of which alternative, and at which step */
  of: string;
  sentences: string[];
  /** what is to be known before the figures are believed */
  care: string[];
  parts: ShownPart[];
  /** heads of the figures of choices, with units */
  heads: string[];
  choices: Choice[];
  /** places of those that stand in the table, the best first */
  listed: number[];
  /** what is behind the figures; folded away */
  basis: string;
  /** why there is less than was asked for; '' where nothing is missing */
  stopped: string;
}

/** The answer to a study: something to show, or what is wrong with what was asked. */
export type StudyAnswer = { shown: ShownStudy } | { issues: Issue[] };

/** A number of the site that may be varied, and how far one would go. */
export interface VaryChoice {
  path: string;
  label: string;
  /** from:to:step, or a list */
  values: string;
}
