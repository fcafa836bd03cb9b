import { makeColumns } from '../sim/columns.ts';
import { simulate } from '../sim/simulate.ts';
import { type Alternative, readAlternatives } from './alternatives.ts';
import { batteryLifeYears } from './battery-life.ts';
import { controlsFromSite } from './controls-from-site.ts';
import { findDarkWeek } from './dark-week.ts';
import { designChecks } from './design-checks/all.ts';
import { hashText } from './hash.ts';
import { readWeatherYears } from './horizon-weather.ts';
import { InputMaker } from './inputs-from-site.ts';
import { efficiencyFit } from './inverter-losses.ts';
import type { Issue } from './issue.ts';
import { moneyOf } from './life-cycle.ts';
import type { ReadFile } from './load-files.ts';
import { uncertainIssues } from './many/uncertain-checks.ts';
import { plantFromSite } from './plant-from-site.ts';
import { parseSite } from './site-document.ts';
import type { Site } from './site-schema.ts';
import type { AlternativeResult, SiteHeading, Study } from './study.ts';

export interface StudyRequest {
  /** text and name of the site file */
  text: string;
  file: string;
  /** reads a file named in it; throws when there is none */
  readFile: ReadFile;
  version: string;
  /** only this alternative (and the site as filed, which it is compared with) */
  only?: string;
  /** another step than the site file's [min] */
  stepMin?: number;
  /** told after each alternative; may throw to stop */
  onProgress?: (done: number, of: number, name: string) => void;
}

export interface StudyResult {
  study: Study | null;
  issues: Issue[];
}

/** What it takes to run the alternatives of a study again with something changed: their sites, in order. */
export interface Again {
  alternatives: readonly Alternative[];
  maker: InputMaker;
}

/**
 * Reads, checks and simulates a site with its alternatives. With an error among the issues there is no study, and
 * nothing to run again.
 */
export function runStudy(request: StudyRequest): StudyResult & { again: Again | null } {
  const reads = watchReads(request);
  const prepared = prepareStudy(request, reads.readFile);
  const { alternatives, maker, issues } = prepared;
  if (alternatives === null)
    return { study: null, again: null, issues: [...issues, ...(maker?.issues ?? [])] };
  const results: AlternativeResult[] = [];
  for (const alternative of alternatives) {
    const done = simulateAlternative(alternative, maker);
    if (done === null) return { study: null, again: null, issues: [...issues, ...maker.issues] };
    const { result, monthEnds } = done;
    results.push({ ...result, checks: designChecks({ ...result, site: alternative.site, monthEnds }) });
    request.onProgress?.(results.length, alternatives.length, alternative.name);
  }
  const [first] = alternatives;
  const made = maker.make(first.site);
  if (made === null) return { study: null, again: null, issues: [...issues, ...maker.issues] };
  const study: Study = {
    site: siteHeading(first.site),
    axis: made.axis,
    timeZone: first.site.site.timeZone,
    alternatives: results,
    sheets: maker.sheets,
    doubts: [...issues, ...maker.issues],
    made: { version: request.version, inputsHash: reads.inputsHash() },
  };
  return { study, again: { alternatives, maker }, issues: study.doubts };
}

/** What a report is headed with. */
export function siteHeading({ site }: Site): SiteHeading {
  const { name, note, latitudeDeg, longitudeDeg, currency } = site;
  return { name, note, latDeg: latitudeDeg, lonDeg: longitudeDeg, currency };
}

/** Reads for a study, and a hash of all that it has read by then: the same inputs have the same. */
export function watchReads(request: StudyRequest): { readFile: ReadFile; inputsHash: () => string } {
  const hash = new Map<string, string>();
  const readFile: ReadFile = (path) => {
    const bytes = request.readFile(path);
    hash.set(path, hashText(bytes));
    return bytes;
  };
  const inputsHash = () => {
    const files = [...hash].sort().map(([path, sum]) => `${path} ${sum}`);
    return hashText([request.text, request.stepMin ?? '', ...files].join('\n'));
  };
  return { readFile, inputsHash };
}

/** Reads and checks everything, and simulates nothing: every problem and doubt. */
export function checkStudy(request: StudyRequest): StudyResult & { maker: InputMaker | null } {
  const { alternatives, issues, maker, placeOf } = prepareStudy(request, request.readFile);
  const sites = (alternatives ?? []).map(({ site }) => site);
  const missing = maker ? readWeatherYears(sites, maker, request.readFile, placeOf) : [];
  return { study: null, issues: [...issues, ...missing, ...(maker?.issues ?? [])], maker };
}

/** Reads and checks a site and its alternatives; without alternatives where something is wrong. */
export function prepareStudy(request: StudyRequest, readFile: ReadFile) {
  const parsed = parseSite(request.text, request.file);
  if (parsed.document === null)
    return { alternatives: null, maker: null, issues: parsed.issues, placeOf: null };
  const { placeOf } = parsed.document;
  const read = readAlternatives(parsed.document);
  const failed = read.issues.some((issue) => issue.severity === 'error');
  const maker = new InputMaker(readFile, request.stepMin ?? null, placeOf);
  for (const { site } of read.alternatives) maker.make(site);
  if (read.alternatives.length === 0) maker.readFiles(read.parts);
  const broken = failed || maker.issues.some((issue) => issue.severity === 'error');
  const wanted = read.alternatives.filter(({ name }, i) => i === 0 || !request.only || name === request.only);
  const unsound = uncertainIssues(parsed.document, read.parts);
  const issues = [...read.issues, ...unsound];
  if (request.only && wanted.length === 1 && read.alternatives[0]?.name !== request.only)
    issues.push(unknownAlternative(request, read.alternatives));
  if (broken || issues.length > read.issues.length) return { alternatives: null, maker, issues, placeOf };
  return { alternatives: wanted, maker, issues, placeOf };
}

function unknownAlternative(request: StudyRequest, known: readonly Alternative[]): Issue {
  return {
    severity: 'error',
    code: 'unknown-alternative',
    path: 'alternatives',
    got: `no alternative '${request.only}'`,
    want: known.map(({ name }) => `'${name}'`).join(' or '),
    at: { file: request.file },
  };
}

/** Simulates one alternative, and leaves its design checks out; null where its files have errors, which are then among the maker's issues. */
export function simulateAlternative(
  alternative: Alternative,
  maker: InputMaker,
): { result: AlternativeResult; monthEnds: number[] } | null {
  const { site, name, note, changes, capital } = alternative;
  const made = maker.make(site);
  if (made === null) return null;
  const { inputs, periodEnds, airAtStartC, yields, acArrayShare } = made;
  const plant = plantFromSite(site, airAtStartC, acArrayShare);
  const controls = controlsFromSite(site);
  const columns = makeColumns(inputs.count);
  const ledger = simulate(plant, controls, inputs, { columns, periodEnds });
  const wornOutYears = batteryLifeYears(site, inputs.stepMin, columns);
  return {
    result: {
      ...{ name, note, changes, plant, controls, inputs, ledger, columns, yields },
      efficiencyFit: efficiencyFit(site.inverter),
      money: moneyOf(site, capital, ledger, wornOutYears),
      batteryLifeYears: wornOutYears,
      darkWeek: findDarkWeek(inputs, columns),
      checks: [],
    },
    monthEnds: periodEnds,
  };
}
