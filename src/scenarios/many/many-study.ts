import type { Alternative } from '../alternatives.ts';
import { yearIssues } from '../horizon-study.ts';
import { readWeatherYears } from '../horizon-weather.ts';
import type { InputMaker } from '../inputs-from-site.ts';
import type { Issue } from '../issue.ts';
import { prepareStudy, type StudyRequest, siteHeading, watchReads } from '../run-study.ts';
import type { DataSheet } from '../series.ts';
import type { SiteHeading } from '../study.ts';

/** What stands on every page about many variants of a site. */
export interface StudyFacts {
  site: SiteHeading;
  stepMin: number;
  has: { battery: boolean; array: boolean; generator: boolean };
  sheets: DataSheet[];
  doubts: Issue[];
  made: { version: string; inputsHash: string };
}

export interface Prepared {
  facts: StudyFacts;
  alternatives: readonly Alternative[];
  maker: InputMaker;
}

/**
 * Reads and checks a site whose years are to be simulated one after the other, with all its alternatives. Nothing is
 * prepared with an error among the issues.
 */
export function prepareYears(request: StudyRequest): { prepared: Prepared | null; issues: Issue[] } {
  const reads = watchReads(request);
  const { alternatives, maker, issues, placeOf } = prepareStudy(request, reads.readFile);
  if (alternatives === null) return { prepared: null, issues: [...issues, ...(maker?.issues ?? [])] };
  const sites = alternatives.map(({ site }) => site);
  const ofYears = [
    ...readWeatherYears(sites, maker, reads.readFile, placeOf),
    ...yearIssues(sites[0], placeOf),
  ];
  const doubts = [...issues, ...ofYears, ...maker.issues];
  if (doubts.some(({ severity }) => severity === 'error')) return { prepared: null, issues: doubts };
  const facts: StudyFacts = {
    site: siteHeading(sites[0]),
    stepMin: request.stepMin ?? sites[0].period.stepMin,
    has: {
      battery: sites.some(({ battery }) => battery !== null),
      array: sites.some(({ arrays, sources }) => arrays.length + sources.length > 0),
      generator: sites.some(({ generator }) => generator !== null),
    },
    sheets: maker.sheets,
    doubts,
    made: { version: request.version, inputsHash: reads.inputsHash() },
  };
  return { prepared: { facts, alternatives, maker }, issues: doubts };
}

/** The alternatives of these names, in this order; or an issue for each name that is none. */
export function alternativesNamed(
  names: readonly string[],
  known: readonly Alternative[],
  file: string,
): { found: Alternative[]; issues: Issue[] } {
  const found = names.map((name) => known.find((one) => one.name === name));
  const issues = names.flatMap((name, i): Issue[] => {
    if (found[i]) return [];
    const want = known.map((one) => `'${one.name}'`).join(' or ');
    const got = `no alternative '${name}'`;
    return [
      { severity: 'error', code: 'unknown-alternative', path: 'alternatives', got, want, at: { file } },
    ];
  });
  return { found: found.filter((one) => one !== undefined), issues };
}
