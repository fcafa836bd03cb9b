import type { Site } from '../../scenarios/site-schema.ts';
import type { AlternativeResult, Study } from '../../scenarios/study.ts';
import { asEntered, digits } from '../numbers.ts';

/** One thing to be entered on site. */
export interface Setting {
  /** what it is called at a panel */
  name: string;
  /** in the units that technicians use */
  value: string;
  why: string;
  /** in the first month */
  watch: string;
  /** what it was, where it is to be changed */
  was?: string;
}

export interface SettingGroup {
  title: string;
  /** what holds for all of them; may be empty */
  note: string;
  settings: Setting[];
}

/** What a sheet is made from: one alternative of a study, and its site. */
export interface SheetSource {
  study: Study;
  result: AlternativeResult;
  site: Site;
}

/** "30 %" */
export function percent(frac: number): string {
  return `${asEntered(frac * 100)} %`;
}

/** "1 min", "45 s": seconds below two minutes where they are not whole minutes. */
export function minutes(min: number): string {
  if (min >= 120 && min % 60 === 0) return `${asEntered(min / 60)} h`;
  if (Number.isInteger(min)) return `${asEntered(min)} min`;
  return min < 2 ? `${asEntered(min * 60)} s` : `${digits(min, 1)} min`;
}

export function seconds(s: number): string {
  return s >= 120 && s % 60 === 0 ? minutes(s / 60) : `${asEntered(s)} s`;
}

/** A power with one digit, two where it is small. */
export function kw(value: number): string {
  return `${digits(value, value < 0.995 ? 2 : 1)} kW`;
}

export function amps(value: number): string {
  return `${digits(value, value < 9.95 ? 1 : 0)} A`;
}

export function volts(value: number): string {
  return `${digits(value, 1)} V`;
}
