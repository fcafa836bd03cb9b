import type { Issue } from './issue.ts';
import { nearestWord } from './nearest.ts';
import { type Path, plainCopy, type SiteDocument, valueAt } from './site-document.ts';
import type { SiteParts } from './site-file.ts';
import { knownKeys } from './site-keys.ts';
import type { Site } from './site-schema.ts';
import type { Change } from './study.ts';

/** Changes to a site, as an alternative has them: path and new value. */
export type SiteChanges = Record<string, unknown>;

/** A site's value with an alternative's changes made. */
export interface AppliedChanges {
  value: unknown;
  made: Change[];
  issues: Issue[];
  /** the change that a problem at a path of the site is about: the one that shares most of that path; null: none */
  changeOf(path: string): Path | null;
}

/**
 * Makes an alternative's changes to the plain value of a site.
 * A change names a value by its path, list items by place or by their `name`: 'arrays.roof.kWp'. A later change
 * acts on what the earlier ones left.
 * @param at path of the changes in the document; @param parts the site as filed, for the values changed from
 */
export function applyChanges(
  changes: Record<string, unknown>,
  at: Path,
  document: SiteDocument,
  parts: SiteParts,
): AppliedChanges {
  const value = plainCopy(document.value);
  const made: Change[] = [];
  const issues: Issue[] = [];
  const changed: { path: string; steps: Path }[] = [];
  for (const [path, to] of Object.entries(changes)) {
    const steps = resolve(path, value);
    if (typeof steps === 'string') {
      issues.push(unknownPath(path, steps, [...at, path], document));
      continue;
    }
    changed.push({ path, steps });
    made.push({ path, from: valueAt(parts, steps), to });
    put(value, steps, plainCopy(to));
  }
  const changeOf = (path: string): Path | null => {
    const shared = changed.map(({ steps }) => sharedSteps(steps, path.split('.')));
    const most = Math.max(0, ...shared);
    return most === 0 ? null : [...at, changed[shared.indexOf(most)].path];
  };
  return { value, made, issues, changeOf };
}

/**
 * A copy of a site with values replaced: paths as in an alternative's changes.
 * Errors: throws on a path that the site has not: changes made here are our own.
 */
export function changedSite(site: Site, changes: SiteChanges): Site {
  const copy = plainCopy(site);
  for (const [path, to] of Object.entries(changes)) {
    const steps = resolve(path, copy);
    if (typeof steps === 'string') throw new Error(`no '${path}' in a site; expected ${steps}`);
    put(copy, steps, plainCopy(to));
  }
  return copy as Site;
}

/** The value at a path as in an alternative's changes; undefined where the site has none. */
export function valueOfPath(site: Site, path: string): unknown {
  const steps = resolve(path, site);
  return typeof steps === 'string' ? undefined : valueAt(site, steps);
}

/** Groups that every alternative has in common, because their results stand side by side. */
const SHARED = ['site', 'period', 'alternatives'];

/** A dotted path as steps, list items by name turned into places; or what would be right. */
function resolve(path: string, value: unknown): Path | string {
  const steps: (string | number)[] = [];
  const names = path.split('.');
  if (SHARED.includes(names[0])) return `a value of another group: ${SHARED.join(', ')} are the same for all`;
  for (const step of names) {
    const at = valueAt(value, steps);
    if (Array.isArray(at)) {
      const byName = at.findIndex((item) => (item as { name?: unknown } | null)?.name === step);
      const index = byName >= 0 || step === '' ? byName : Number(step);
      if (!Number.isInteger(index) || index < 0 || index >= at.length) return wantedItem(steps, at);
      steps.push(index);
      continue;
    }
    if (at !== undefined && at !== null && typeof at !== 'object')
      return `'${steps.join('.')}', which is a value and not a group`;
    const known = knownKeys(steps);
    if (known.length > 0 && !known.includes(step)) {
      const near = nearestWord(step, known);
      return near ? `'${[...steps, near].join('.')}'` : `one of ${known.join(', ')}`;
    }
    steps.push(step);
  }
  return steps;
}

function wantedItem(steps: Path, list: readonly unknown[]): string {
  const names = list.map((item) => (item as { name?: unknown } | null)?.name).filter((name) => name);
  if (names.length > 0)
    return `an item of ${steps.join('.')}: ${names.map((name) => `'${name}'`).join(' or ')}`;
  return `an item of ${steps.join('.')}: ${list.length === 0 ? 'it is empty' : `0 to ${list.length - 1}`}`;
}

function put(value: unknown, steps: Path, to: unknown): void {
  let at = value as Record<string | number, unknown>;
  for (const step of steps.slice(0, -1)) {
    at[step] ??= {};
    at = at[step] as Record<string | number, unknown>;
  }
  at[steps[steps.length - 1]] = to;
}

function sharedSteps(a: Path, b: readonly string[]): number {
  let i = 0;
  while (i < a.length && i < b.length && String(a[i]) === b[i]) i++;
  return i;
}

function unknownPath(path: string, want: string, at: Path, document: SiteDocument): Issue {
  return {
    severity: 'error',
    code: 'unknown-path',
    path: at.join('.'),
    got: `'${path}'`,
    want,
    at: document.placeOf(at),
  };
}
