import type { StepColumns } from '../../sim/columns.ts';
import type { Controls } from '../../sim/controls.ts';
import type { Inputs } from '../../sim/inputs.ts';
import type { Ledger } from '../../sim/ledger.ts';
import type { Plant } from '../../sim/plant.ts';
import type { Site } from '../site-schema.ts';
import type { DarkWeek } from '../study.ts';

export type Verdict = 'fine' | 'look at' | 'not acceptable' | 'not known';

/** One rule of design held against an alternative. */
export interface DesignCheck {
  /** the same for the same rule about the same thing in every alternative: 'strings.roof.cold' */
  key: string;
  /** what is checked, in a few words */
  title: string;
  /** the rule in a sentence */
  rule: string;
  /** null where it is not known */
  value: number | null;
  /** null where it is not known */
  limit: number | null;
  /** whether the limit is the most or the least that is fine */
  bound: 'most' | 'least';
  /** of value and limit; '%' are percent, not shares */
  unit: string;
  /** from the value to the limit in the same unit, positive on the good side */
  margin: number | null;
  /** where the rule is from, with how it was seen, or 'common practice' */
  source: string;
  verdict: Verdict;
  /** what the value is made of, in a sentence; may be empty */
  note: string;
  /** keys of the site file without which it cannot be told */
  missing: string[];
}

/** A simulated alternative with what the checks look at. */
export interface CheckedRun {
  site: Site;
  plant: Plant;
  controls: Controls;
  inputs: Inputs;
  ledger: Ledger;
  columns: StepColumns;
  darkWeek: DarkWeek | null;
  /** steps (not included) at which months end */
  monthEnds: readonly number[];
}

/** A rule before its value is known. */
export type Rule = Pick<DesignCheck, 'key' | 'title' | 'rule' | 'bound' | 'unit' | 'source'>;

/** Up to where a value is fine, and up to where it is worth a look; beyond that it is not acceptable. */
export interface Limits {
  fine: number;
  /** default: a look is all it is worth, however far it goes */
  acceptable?: number;
  /** the limit that is shown; default: up to where it is fine */
  stated?: number;
}

/** Values this close to a limit are at the limit: rounding, no more. */
const ROUNDING = 1e-9;

/** Holds a value against its limits. */
export function judged(rule: Rule, value: number, limits: Limits, note = ''): DesignCheck {
  const sign = rule.bound === 'most' ? 1 : -1;
  const within = (limit: number) => sign * (value - limit) <= ROUNDING * Math.max(1, Math.abs(limit));
  const acceptable = limits.acceptable ?? sign * Number.POSITIVE_INFINITY;
  const verdict = within(limits.fine) ? 'fine' : within(acceptable) ? 'look at' : 'not acceptable';
  const limit = limits.stated ?? limits.fine;
  return { ...rule, value, limit, margin: sign * (limit - value), verdict, note, missing: [] };
}

/** A check that lacks a value of the site file. @param known what can be told without it */
export function notKnown(
  rule: Rule,
  missing: string[],
  known: { value?: number; limit?: number; note?: string } = {},
): DesignCheck {
  const { value = null, limit = null, note = '' } = known;
  return { ...rule, value, limit, margin: null, verdict: 'not known', note, missing };
}

/** A check that is fine with nothing missing, but cannot be called so without a value of the site file. */
export function unlessMissing(check: DesignCheck, missing: string[]): DesignCheck {
  if (missing.length === 0 || check.verdict !== 'fine') return check;
  return { ...check, margin: null, verdict: 'not known', missing };
}

export const COMMON_PRACTICE = 'common practice';
