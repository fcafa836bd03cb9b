import { parse } from 'yaml';
import type { SiteChanges } from '../apply-changes.ts';
import type { Issue } from '../issue.ts';
import { nearestWord } from '../nearest.ts';
import { CAPITAL, type Filed } from './ground.ts';

/** One number or choice of a site that is varied. */
export interface Axis {
  /** as in an alternative's changes, or `ALTERNATIVE` */
  path: string;
  values: unknown[];
  /** what the site as filed has */
  filed: unknown;
}

/** In the place of a path: a choice of alternatives by their names. */
export const ALTERNATIVE = 'alternative';
const AS_FILED = 'as filed';

/** Beyond this nobody reads a number of values. */
const MOST_VALUES = 10_000;

/**
 * What of a site is varied, from the words of a command line: 'generator.ratedKw=10:30:2.5' (from, to, step),
 * 'control.charge.startSoc=0.2,0.3,0.4' (a list), 'alternative=as filed,24 modules'.
 * @returns the axes in the order given, or every problem
 */
export function readAxes(texts: readonly string[], filed: Filed): Axis[] | Issue[] {
  const read = texts.map((text) => readAxis(text, filed));
  const issues = read.flatMap((axis) => ('severity' in axis ? [axis] : []));
  const axes = read.filter((axis) => 'values' in axis);
  for (const [i, axis] of read.entries())
    if ('values' in axis && read.slice(0, i).some((other) => 'values' in other && other.path === axis.path))
      issues.push(wrong(texts[i], axis.path, `'${axis.path}' a second time`, 'each value once'));
  if (texts.length === 0)
    issues.push(wrong('', 'vary', 'nothing to vary', "a path and its values: 'generator.ratedKw=10:30:2.5'"));
  return issues.length > 0 ? issues : axes;
}

/** The changes that give one of an axis' values. */
export function changesFor({ path }: Axis, value: unknown, filed: Filed): SiteChanges {
  if (path !== ALTERNATIVE) return { [path]: value };
  const chosen = filed.site.alternatives.find(({ name }) => name === value);
  if (!chosen) return {};
  return { ...chosen.changes, [CAPITAL]: chosen.capital };
}

function readAxis(text: string, filed: Filed): Axis | Issue {
  const at = text.indexOf('=');
  if (at < 1)
    return wrong(text, 'vary', `'${text}'`, "a path, '=', and values: 'generator.ratedKw=10:30:2.5'");
  const path = text.slice(0, at).trim();
  const values = readValues(text, path, text.slice(at + 1));
  if (!Array.isArray(values)) return values;
  const twice = values.find((value, i) => values.findIndex((other) => isSame(other, value)) < i);
  if (twice !== undefined)
    return wrong(text, path, `${JSON.stringify(twice)} a second time`, 'each value once');
  if (path === ALTERNATIVE) return chosenAlternatives(text, values, filed);
  const now = filed.valueAt(path);
  return 'issue' in now ? { ...now.issue, path, at: place(text) } : { path, values, filed: now.value };
}

const NUMBER = String.raw`\s*([-+]?\d*\.?\d+(?:[eE][-+]?\d+)?)\s*`;
const RANGE = new RegExp(`^${NUMBER}:${NUMBER}:${NUMBER}$`);

function readValues(text: string, path: string, words: string): unknown[] | Issue {
  const range = RANGE.exec(words);
  if (range) return rangeOf(text, path, range.slice(1).map(Number));
  try {
    const values: unknown = parse(`[${words}]`);
    if (Array.isArray(values) && values.length > 0) return values;
  } catch {}
  return wrong(
    text,
    path,
    `'${words}'`,
    "from:to:step such as '10:30:2.5', or a list such as '0.2, 0.3, 0.4'",
  );
}

function rangeOf(text: string, path: string, [from, to, step]: number[]): unknown[] | Issue {
  const steps = (to - from) / step;
  if (!(step > 0) || !(steps >= 0))
    return wrong(text, path, `${from}:${to}:${step}`, 'from, to and step with from <= to and a step above 0');
  if (steps >= MOST_VALUES)
    return wrong(text, path, `${Math.floor(steps) + 1} values`, `at most ${MOST_VALUES}`);
  // 0.1 + 2 · 0.1 is 0.3 to whoever asked for it
  return Array.from({ length: Math.floor(steps + 1e-9) + 1 }, (_, i) =>
    Number((from + i * step).toPrecision(12)),
  );
}

function chosenAlternatives(text: string, values: unknown[], filed: Filed): Axis | Issue {
  const known = [AS_FILED, ...filed.site.alternatives.map(({ name }) => name)];
  const names = values.map(String);
  const unknown = names.find((name) => !known.includes(name));
  if (unknown === undefined) return { path: ALTERNATIVE, values: names, filed: AS_FILED };
  const near = nearestWord(unknown, known);
  const want = near ? `'${near}'` : known.map((name) => `'${name}'`).join(' or ');
  return wrong(text, ALTERNATIVE, `no alternative '${unknown}'`, want);
}

function isSame(a: unknown, b: unknown): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}

function wrong(text: string, path: string, got: string, want: string): Issue {
  return { severity: 'error', code: 'vary', path, got, want, at: place(text) };
}

function place(text: string): Issue['at'] {
  return { file: `--vary '${text}'` };
}
