import type { SiteChanges } from '../apply-changes.ts';
import { type Issue, isUsable } from '../issue.ts';
import type { ReadFile } from '../load-files.ts';
import { prepareStudy, siteHeading, watchReads } from '../run-study.ts';
import type { Site } from '../site-schema.ts';
import type { SiteHeading } from '../study.ts';

/** A site of which many variants are asked about. */
export interface ChosenRequest {
  /** text and name of the site file */
  text: string;
  file: string;
  readFile: ReadFile;
  version: string;
  /** an alternative instead of the site as filed */
  alternative?: string;
  /** another step than the site file's [min] */
  stepMin?: number;
}

/** The site as filed or one of its alternatives, checked. */
export interface ChosenSite {
  site: Site;
  /** null: as filed */
  alternative: string | null;
  /** what makes the alternative of the site as filed */
  base: SiteChanges;
  stepMin: number;
  heading: SiteHeading;
  doubts: Issue[];
  made: { version: string; inputsHash: string };
}

/** Reads and checks a site and the alternative asked for; null where something is wrong, which is then among the issues. */
export function chooseSite(request: ChosenRequest): { chosen: ChosenSite | null; issues: Issue[] } {
  const { text, file, version, alternative, stepMin } = request;
  const { readFile, inputsHash } = watchReads(request);
  const prepared = prepareStudy({ text, file, readFile, version, only: alternative, stepMin }, readFile);
  const issues = [...prepared.issues, ...(prepared.maker?.issues ?? [])];
  if (prepared.alternatives === null || !isUsable(issues)) return { chosen: null, issues };
  const [filed] = prepared.alternatives;
  // asked for one, it is given that beside the site as filed
  const one = alternative === undefined ? filed : prepared.alternatives[prepared.alternatives.length - 1];
  const base: SiteChanges = Object.fromEntries(one.changes.map(({ path, to }) => [path, to]));
  const capital = one.site.money.capital + one.capital;
  if (one.capital !== 0) base['money.capital'] = capital;
  const site = { ...one.site, money: { ...one.site.money, capital } };
  return {
    chosen: {
      site,
      alternative: one === filed ? null : one.name,
      base,
      stepMin: stepMin ?? site.period.stepMin,
      heading: siteHeading(site),
      doubts: issues,
      made: { version, inputsHash: inputsHash() },
    },
    issues,
  };
}
