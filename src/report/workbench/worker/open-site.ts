import { type Alternative, readAlternatives } from '../../../scenarios/alternatives.ts';
import { applyChanges } from '../../../scenarios/apply-changes.ts';
import { InputMaker } from '../../../scenarios/inputs-from-site.ts';
import type { Issue } from '../../../scenarios/issue.ts';
import type { ReadFile } from '../../../scenarios/load-files.ts';
import { parseSite, type SiteDocument } from '../../../scenarios/site-document.ts';
import { readSite, type SiteParts } from '../../../scenarios/site-file.ts';
import type { Changes } from '../messages.ts';

/** A site file that can be simulated. */
export interface OpenSite {
  text: string;
  document: SiteDocument;
  parts: SiteParts;
  /** the site as filed first */
  alternatives: Alternative[];
  maker: InputMaker;
}

/** A site file as read, good or not. */
export interface ReadSite {
  document: SiteDocument | null;
  parts: SiteParts;
  issues: Issue[];
  open: OpenSite | null;
}

/**
 * Reads and checks a site file with its alternatives and the files that it names.
 * @param last the last good one: what was read for it is kept where this one asks for nothing else
 */
export function openSite(text: string, file: string, readFile: ReadFile, last: OpenSite | null): ReadSite {
  const parsed = parseSite(text, file);
  if (parsed.document === null) return { document: null, parts: {}, issues: parsed.issues, open: null };
  const { document } = parsed;
  const { alternatives, parts, issues } = readAlternatives(document);
  const failed = issues.some(isError);
  const { maker, isNew } = makerFor(document, alternatives, readFile, last);
  if (isNew) for (const { site } of alternatives) maker.make(site);
  if (alternatives.length === 0) maker.readFiles(parts);
  const all = [...issues, ...maker.issues];
  const broken = failed || maker.issues.some(isError);
  const open = broken ? null : { text, document, parts, alternatives, maker };
  return { document, parts, issues: all, open };
}

/** One alternative with changes on trial, checked as if they stood in the file. */
export function onTrial(
  open: OpenSite,
  index: number,
  trial: Changes,
): { alternative: Alternative | null; issues: Issue[] } {
  const alternative = open.alternatives[index];
  if (Object.keys(trial).length === 0) return { alternative, issues: [] };
  const { document, parts } = open;
  const own = index === 0 ? {} : (parts.alternatives?.[index - 1]?.changes ?? {});
  const applied = applyChanges({ ...own, ...trial }, ['alternatives', index - 1, 'changes'], document, parts);
  const read = readSite(document, applied.value);
  const issues = [...applied.issues, ...read.issues].filter(isError);
  if (read.site === null || issues.length > 0) return { alternative: null, issues };
  return { alternative: { ...alternative, changes: applied.made, site: read.site }, issues: [] };
}

const makers = new WeakMap<InputMaker, { key: string; used: number }>();
/** Inputs that were worked out and are no longer wanted are forgotten after so many edits. */
const MOST_USES = 20;

/** The last maker where files and weather are asked for in the same way; else a new one. */
function makerFor(
  document: SiteDocument,
  alternatives: readonly Alternative[],
  readFile: ReadFile,
  last: OpenSite | null,
): { maker: InputMaker; isNew: boolean } {
  const key = JSON.stringify(
    alternatives.map(
      ({ site: { site, period, load, appliances, weather, sources, inverter, sky, arrays } }) => [
        { ...site, name: '', note: '' },
        [period, load, appliances, weather, sources, inverter.phases, inverter.phaseV, sky],
        arrays.map(({ kWp: _kWp, controllerA: _a, ...rest }) => rest),
      ],
    ),
  );
  const known = last && makers.get(last.maker);
  if (last && known?.key === key && known.used < MOST_USES && !last.maker.issues.some(isError)) {
    known.used++;
    return { maker: last.maker, isNew: false };
  }
  const maker = new InputMaker(readFile, null, document.placeOf);
  makers.set(maker, { key, used: 0 });
  return { maker, isNew: true };
}

function isError({ severity }: Issue): boolean {
  return severity === 'error';
}
