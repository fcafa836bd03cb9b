import { FAULTS, type Fault, type FaultKind, type Visit } from '../../scenarios/visit/visit.ts';
import { asEntered, digits } from '../numbers.ts';
import { capital, listed } from '../words.ts';
import { withColumnNames } from './column-words.ts';
import { faultCheck, faultEvidence, faultTermsWords, faultTitle } from './fault-words.ts';
import { stretchWords } from './span.ts';

/** What is said of one fault. */
export interface FaultLines {
  /** "A string of an array gives nothing (barn)" */
  title: string;
  /** "since 3 April 2025, about 12 %"; begins small */
  when: string;
  /** a sentence; may be empty */
  evidence: string;
  /** a sentence */
  check: string;
}

export function faultLines(fault: Fault, visit: Visit): FaultLines {
  const part = fault.part === null ? '' : ` (${fault.part})`;
  const stretch = stretchWords(visit, fault.fromS, fault.toS) ?? 'all through the log';
  return {
    title: capital(faultTitle(fault.kind)) + part,
    when: `${stretch}, about ${sizeWords(fault)}`,
    evidence: sentence(faultEvidence(fault)),
    check: sentence(faultCheck(fault.kind)),
  };
}

/** "12 %", "1.4 kW", "2.1 % a day", "40 L at once" */
function sizeWords({ size, unit }: Fault): string {
  if (unit === '0 to 1') return `${rounded(100 * size)} %`;
  if (unit === '1/day') return `${rounded(100 * size)} % a day`;
  if (unit === 'L/day') return `${rounded(size)} L a day`;
  if (unit === 'L') return `${rounded(size)} L at once`;
  return `${rounded(size)} ${unit}`;
}

/** Two digits that count, below ten. */
function rounded(value: number): string {
  if (Math.abs(value) >= 10) return digits(value);
  return asEntered(Number(value.toPrecision(2)));
}

/** The first of its sentences. */
export function firstSentence(text: string): string {
  return /^.*?[.?!](?= |$)/s.exec(text)?.[0] ?? text;
}

function sentence(text: string): string {
  if (text === '') return '';
  return /[.!?]$/.test(text) ? capital(text) : `${capital(text)}.`;
}

/** "a phase carries nothing (lacks load of phase 1)", worded for a list. */
export function notLookedForWords({ notLookedFor }: Visit): string[] {
  return notLookedFor.map(({ kind, lacks }) => `${faultTitle(kind)} (for want of ${withColumnNames(lacks)})`);
}

/** Of a table of settings or a list of names: what begins a sentence. */
export function notLookedForSentence(visit: Visit): string | null {
  const words = notLookedForWords(visit);
  return words.length === 0 ? null : `Could not be looked for: ${listed(words)}.`;
}

/** What a fault is a fault of. */
const PART_OF: Partial<Record<FaultKind, (keyof Visit['parts'])[]>> = {
  'dead-string': ['array'],
  'weak-charging': ['generator', 'battery'],
  'soc-drift': ['battery'],
  'soc-jump': ['battery'],
  'heater-off': ['cabinet', 'battery'],
  'cooler-off': ['cabinet'],
  'fuel-loss': ['generator'],
};

/** What was looked for, and how large it must be to be found in nine cases of ten; only of parts that the site has. */
export function lookedForWords({ notLookedFor, parts }: Visit): string[] {
  const left = new Set(notLookedFor.map(({ kind }) => kind));
  return FAULTS.filter((kind) => !left.has(kind) && (PART_OF[kind] ?? []).every((part) => parts[part])).map(
    (kind) => `${capital(faultTitle(kind))}: ${faultTermsWords(kind)}.`,
  );
}
