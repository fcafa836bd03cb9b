import type { Issue } from './issue.ts';
import { nearestWord } from './nearest.ts';
import { knownKeys, type Path, readSite, type SiteDocument, valueAt } from './site-file.ts';
import type { Site } from './site-schema.ts';
import type { Change } from './study.ts';

/** One alternative, ready to be simulated. */
export interface Alternative {
  name: string;
  note: string;
  capital: number;
  changes: Change[];
  site: Site;
}

/**
 * The site as filed and each of its alternatives, checked whole.
 * A change names a value by its path, list items by place or by their `name`: 'arrays.roof.kWp'.
 */
export function readAlternatives(document: SiteDocument): { alternatives: Alternative[]; issues: Issue[] } {
  const base = readSite(document);
  if (base.site === null) return { alternatives: [], issues: base.issues };
  const issues = [...base.issues];
  const asFiled: Alternative = { name: 'as filed', note: '', capital: 0, changes: [], site: base.site };
  const alternatives = [asFiled];
  const names = new Set<string>([asFiled.name]);
  for (const [i, { name, note, capital, changes }] of base.site.alternatives.entries()) {
    const place = ['alternatives', i];
    if (names.has(name))
      issues.push(error(document, [...place, 'name'], `a second '${name}'`, 'names of their own'));
    names.add(name);
    const value = structuredClone(document.value);
    const made: Change[] = [];
    for (const [path, to] of Object.entries(changes)) {
      const at = [...place, 'changes', path];
      const steps = resolve(path, value);
      if (typeof steps === 'string') issues.push(error(document, at, `'${path}'`, steps, 'unknown-path'));
      else {
        made.push({ path, from: valueAt(base.site, steps), to });
        put(value, steps, to);
      }
    }
    const changed = readSite(document, value);
    // what is wrong with a changed value is shown at the change, not at the value it replaces
    issues.push(
      ...changed.issues
        .filter(isNew(base.issues))
        .map((issue) => moved(issue, changes, place, name, document)),
    );
    if (changed.site !== null) alternatives.push({ name, note, capital, changes: made, site: changed.site });
  }
  return { alternatives, issues };
}

function isNew(known: readonly Issue[]): (issue: Issue) => boolean {
  const seen = new Set(known.map((issue) => `${issue.path} ${issue.got}`));
  return (issue) => !seen.has(`${issue.path} ${issue.got}`);
}

function moved(
  issue: Issue,
  changes: Record<string, unknown>,
  place: Path,
  name: string,
  document: SiteDocument,
): Issue {
  const change = Object.keys(changes).find(
    (path) => issue.path.startsWith(path) || path.startsWith(issue.path),
  );
  const at =
    change === undefined
      ? document.placeOf([...place, 'name'])
      : document.placeOf([...place, 'changes', change]);
  return { ...issue, path: `${name}: ${issue.path}`, at };
}

/** A dotted path as steps, list items by name turned into places; or what would be right. */
function resolve(path: string, value: unknown): Path | string {
  const steps: (string | number)[] = [];
  for (const step of path.split('.')) {
    const at = valueAt(value, steps);
    if (Array.isArray(at)) {
      const byName = at.findIndex((item) => (item as { name?: unknown } | null)?.name === step);
      const index = byName >= 0 ? byName : Number(step);
      if (!Number.isInteger(index) || index < 0 || index >= at.length)
        return `an item of ${steps.join('.')}: 0 to ${at.length - 1}, or its name`;
      steps.push(index);
      continue;
    }
    const known = knownKeys(steps);
    if (known.length > 0 && !known.includes(step)) {
      const near = nearestWord(step, known);
      return near ? `'${[...steps, near].join('.')}'` : `one of ${known.join(', ')}`;
    }
    steps.push(step);
  }
  return steps;
}

function put(value: unknown, steps: Path, to: unknown): void {
  let at = value as Record<string | number, unknown>;
  for (const step of steps.slice(0, -1)) {
    at[step] ??= {};
    at = at[step] as Record<string | number, unknown>;
  }
  at[steps[steps.length - 1]] = to;
}

function error(document: SiteDocument, path: Path, got: string, want: string, code = 'alternative'): Issue {
  return { severity: 'error', code, path: path.join('.'), got, want, at: document.placeOf(path) };
}
