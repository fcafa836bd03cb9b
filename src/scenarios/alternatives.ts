import { applyChanges } from './apply-changes.ts';
import type { Issue } from './issue.ts';
import type { Path, SiteDocument } from './site-document.ts';
import { readSite, type SiteParts } from './site-file.ts';
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

/** What a site file holds: alternatives (none where the site as filed is wrong), and every problem. */
export interface ReadAlternatives {
  alternatives: Alternative[];
  /** the groups of the site as filed in which nothing is wrong */
  parts: SiteParts;
  issues: Issue[];
}

/** The site as filed and each of its alternatives, checked whole. */
export function readAlternatives(document: SiteDocument): ReadAlternatives {
  const base = readSite(document);
  const issues = [...base.issues];
  const alternatives: Alternative[] = [];
  const asFiled = 'as filed';
  if (base.site) alternatives.push({ name: asFiled, note: '', capital: 0, changes: [], site: base.site });
  const names = new Set([asFiled]);
  for (const [i, { name, note, capital, changes }] of (base.parts.alternatives ?? []).entries()) {
    const place: Path = ['alternatives', i];
    if (names.has(name)) issues.push(secondName(name, document, place));
    names.add(name);
    const applied = applyChanges(changes, [...place, 'changes'], document, base.parts);
    issues.push(...applied.issues);
    const changed = readSite(document, applied.value);
    // what is wrong with a changed value is shown at the change, not at the value that it replaces
    const placeOf = (issue: Issue) => document.placeOf(applied.changeOf(issue.path) ?? [...place, 'name']);
    const fresh = changed.issues.filter((issue) => !base.issues.some((known) => isSame(known, issue)));
    issues.push(...fresh.map((issue) => ({ ...issue, path: `${name}: ${issue.path}`, at: placeOf(issue) })));
    if (changed.site && base.site)
      alternatives.push({ name, note, capital, changes: applied.made, site: changed.site });
  }
  return { alternatives, parts: base.parts, issues };
}

/** The same finding about the same value, whatever it is compared with. */
function isSame(a: Issue, b: Issue): boolean {
  return a.path === b.path && a.got === b.got;
}

function secondName(name: string, document: SiteDocument, place: Path): Issue {
  const path = [...place, 'name'];
  return {
    severity: 'error',
    code: 'alternative',
    path: path.join('.'),
    got: `a second '${name}'`,
    want: 'names of their own',
    at: document.placeOf(path),
  };
}
