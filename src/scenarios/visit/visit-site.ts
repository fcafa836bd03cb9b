import { hashText } from '../hash.ts';
import { type Issue, isUsable } from '../issue.ts';
import type { ReadFile } from '../load-files.ts';
import { readLog } from '../log/read-log.ts';
import type { SiteRecord } from '../log/site-record.ts';
import { Filed } from '../many/ground.ts';
import { WrongVariants } from '../many/wrong-variants.ts';
import { siteHeading, watchReads } from '../run-study.ts';
import { holdingAt } from './calibrate.ts';
import { withChargingByFault } from './charging-by-fault.ts';
import { compareWithLog } from './compare/compare.ts';
import { estimateAll } from './estimates/all.ts';
import { extend, extended } from './extend.ts';
import { lookForFaults } from './faults/find-faults.ts';
import { finerGround, hiddenPeaks } from './finer-ground.ts';
import { visitGround } from './ground.ts';
import { retune, unchanged } from './retune.ts';
import { tankNow } from './tank-now.ts';
import type { Visit } from './visit.ts';
import { visitDoubts } from './visit-doubts.ts';

/** What is done for a visit, in order. */
export const VISIT_STAGES = ['read', 'estimate', 'faults', 'compare', 'retune', 'extend'] as const;
export type VisitStage = (typeof VISIT_STAGES)[number];

export interface VisitRequest {
  /** text and name of the site file, which names its log */
  text: string;
  file: string;
  /** reads a file named in it; throws when there is none */
  readFile: ReadFile;
  version: string;
  /** a log that was read already, in place of the one that the site file names */
  record?: SiteRecord;
  /** false: no new settings are looked for, which takes longest */
  retunes?: boolean;
  /** runs of the search for settings */
  mostRuns?: number;
  /** told of each stage as it begins, and of what goes on in it; may throw to stop */
  onProgress?: (stage: VisitStage, doing: string) => void;
}

/**
 * What a site's own log says of it: the site as designed, as it ran and as calibrated, estimates, likely faults, new
 * settings, extensions. Everything in it can be written as JSON.
 * @returns no visit with an error among the issues: all of the site file, its files and its log
 */
export async function visitSite(request: VisitRequest): Promise<{ visit: Visit | null; issues: Issue[] }> {
  const { text, file, version, onProgress } = request;
  const tell = (stage: VisitStage, doing = '') => onProgress?.(stage, doing);
  const { readFile, inputsHash } = watchReads({ text, file, version, readFile: request.readFile });
  tell('read');
  const read = readAll(request, readFile);
  if (read.ground === null) return { visit: null, issues: read.issues };
  const { ground, issues } = read;
  const { site, record } = ground;
  const { startS, stepMin, count } = record.axis;
  const endS = startS + count * stepMin * 60;
  await turn();
  tell('estimate');
  const estimates = estimateAll(ground);
  await turn();
  tell('faults');
  const { faults, notLookedFor } = lookForFaults(ground);
  await turn();
  tell('compare');
  const finer = finerGround({ text, file, readFile }, ground);
  const compared = compareWithLog(finer, withChargingByFault(estimates, faults, endS), faults);
  await turn();
  tell('retune');
  const settings =
    request.retunes === false
      ? unchanged('not-asked')
      : await retune({
          ...{ ground: finer, compared, estimates: compared.believed, mostRuns: request.mostRuns },
          onProgress: (doing, runs) => tell('retune', runs > 0 ? `${doing}, ${runs} runs so far` : doing),
        });
  tell('extend');
  const { extensions, issues: leftOut } = extend(finer, compared, compared.believed, (name) =>
    tell('extend', name),
  );
  const calibration = extended(finer, compared.always, holdingAt(compared.believed, endS - 1), {});
  const doubts = [...issues, ...visitDoubts(ground), ...hiddenPeaks(finer), ...compared.doubts, ...leftOut];
  const given = request.record ? hashOfRecord(request.record) : '';
  const visit: Visit = {
    site: siteHeading(site),
    invented: site.site.invented,
    parts: {
      generator: site.generator !== null,
      battery: site.battery !== null,
      array: site.arrays.length > 0,
      cabinet: site.cabinet !== null,
    },
    fuelPerL: site.money.fuelPerL,
    tank: tankNow(ground),
    timeZone: site.site.timeZone,
    fromS: startS,
    toS: endS,
    stepMin,
    record: record.sheet,
    comparison: compared.comparison,
    ...{ estimates, calibration, faults, notLookedFor, retune: settings, extensions, doubts },
    made: { version, inputsHash: hashText(inputsHash() + given) },
  };
  return { visit, issues: doubts };
}

/** The site file, its log and both on one axis; every problem of any of them. */
function readAll({ text, file, record }: VisitRequest, readFile: ReadFile) {
  try {
    const filed = new Filed(text, file);
    const read = record ? { record, issues: [] } : readLog(filed.site, readFile, filed.placeOf);
    if (read.record === null || !isUsable(read.issues)) return { ground: null, issues: read.issues };
    const { ground, issues } = visitGround({ text, file, readFile }, read.record);
    return { ground, issues: [...read.issues, ...issues] };
  } catch (error) {
    if (error instanceof WrongVariants) return { ground: null, issues: [...error.issues] };
    throw error;
  }
}

/** Whoever waits for something else gets it meanwhile. */
function turn(): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, 0));
}

/** Of what a log that was handed in holds. */
function hashOfRecord({ axis, columns, arraysKw }: SiteRecord): string {
  const parts = Object.entries({ ...columns, ...arraysKw }).map(([name, values]) => {
    const bytes = new Uint8Array(values.buffer, values.byteOffset, values.byteLength);
    return `${name} ${hashText(bytes)}`;
  });
  return hashText([JSON.stringify(axis), ...parts].join('\n'));
}
