import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import type { Issue } from '../../scenarios/issue.ts';
import type { Attempt } from '../../scenarios/many/evaluate.ts';
import { Filed } from '../../scenarios/many/ground.ts';
import type { KeptFor } from '../../scenarios/many/kept-outcomes.ts';
import { namedFiles } from '../../scenarios/many/named-files.ts';
import { nodeThreads } from '../../scenarios/many/node-thread.ts';
import { makePool } from '../../scenarios/many/pool.ts';
import { type Sweep, sweepOf } from '../../scenarios/many/sweep.ts';
import { planSweep, type SweepPlan } from '../../scenarios/many/sweep-plan.ts';
import { WrongVariants } from '../../scenarios/many/wrong-variants.ts';
import { QueueTrouble } from '../../scenarios/queue/redis.ts';
import { tryEachByJobs } from '../../scenarios/queue/variants-by-jobs.ts';
import { siteHeading, watchReads } from '../../scenarios/run-study.ts';
import { sweepPage } from '../sweep/page.ts';
import { sweepArrow, sweepCsv, sweepJson } from '../sweep/tables.ts';
import { terminalSweep } from '../sweep/terminal.ts';
import {
  besideSite,
  note,
  noteBesideProgress,
  printIssues,
  readSiteText,
  rememberReads,
  writeInPlace,
} from './files.ts';
import type { SpreadOptions } from './spread-options.ts';
import { runSweep } from './sweep-runs.ts';
import type { Terminal } from './work.ts';

export interface SweepOptions extends SpreadOptions {
  vary: string[];
  price: string[];
  sample?: number;
  seed: string;
  /** most that may go unserved in the best one [kWh]; left out: as much as in the site as filed */
  unserved?: number;
  workers?: number;
  step?: number;
  out: string;
}

/**
 * `darkweek sweep SITE --vary ...`: many variants of a site over several threads, parts or machines. What each gave is
 * kept in a file in the folder as it comes, so that the same command goes on from there when it was stopped.
 */
export async function sweepCommand(
  site: string,
  options: SweepOptions,
  version: string,
  terminal: Terminal,
): Promise<void> {
  const text = readSiteText(site);
  if (text === null) return;
  try {
    await runAndShow(site, text, options, version, terminal);
  } catch (error) {
    if (error instanceof WrongVariants) printIssues(error.issues);
    else if (error instanceof QueueTrouble) note(error.message);
    else throw error;
    process.exitCode = 1;
  }
}

async function runAndShow(
  site: string,
  text: string,
  options: SweepOptions,
  version: string,
  terminal: Terminal,
): Promise<void> {
  const filed = new Filed(text, site);
  const { vary, price: prices, sample, seed, queue, merge } = options;
  const plan = planSweep({ vary, prices, sample, seed }, filed);
  if (Array.isArray(plan)) throw new WrongVariants(plan);
  const { files, readFile: beside } = rememberReads(besideSite(site));
  const study = { text, file: site, readFile: beside, version, stepMin: options.step };
  const { readFile, inputsHash } = watchReads(study);
  // elsewhere or before: only the site as filed is run here
  const threads = queue || merge ? 1 : (options.workers ?? availableParallelism());
  const pool = makePool({ ...study, readFile }, Math.min(threads, plan.variants.length), nodeThreads());
  try {
    for (const path of namedFiles(plan.variants)) tryFile(path, readFile);
    const [outcome] = await pool.evaluate([{}]);
    const ground = { request: study, version, filed: outcome, files };
    const tryEach = queue
      ? tryEachByJobs(ground, { queue, onNote: noteBesideProgress(terminal) })
      : pool.tryEach;
    const belongsTo = { version, inputsHash: inputsHash(), filed: outcome };
    const attempts = await runSweep(plan, tryEach, belongsTo, options, terminal);
    printIssues(pool.doubts);
    if (attempts === null) return;
    const sweep = sweepFrom(plan, filed, attempts, belongsTo, options);
    showSweep(sweep, pool.doubts, options.out, terminal.columns);
  } finally {
    pool.close();
  }
}

function sweepFrom(
  plan: SweepPlan,
  { site }: Filed,
  attempts: readonly Attempt[],
  { filed, ...made }: KeptFor,
  { unserved, step }: SweepOptions,
): Sweep {
  return sweepOf(plan, attempts, {
    site: siteHeading(site),
    stepMin: step ?? site.period.stepMin,
    days: site.period.days,
    ...{ filed, made, mostUnservedKwh: unserved ?? filed.unservedKwh },
  });
}

function showSweep(sweep: Sweep, doubts: readonly Issue[], folder: string, width: number): void {
  const page = join(folder, 'sweep.html');
  writeInPlace(join(folder, 'sweep.csv'), sweepCsv(sweep));
  writeInPlace(join(folder, 'sweep.json'), sweepJson(sweep));
  writeInPlace(join(folder, 'sweep.arrow'), sweepArrow(sweep));
  writeInPlace(page, sweepPage(sweep, doubts));
  process.stdout.write(
    `${terminalSweep(sweep, width)}\n\nMaps: ${page}\nTable: ${join(folder, 'sweep.csv')}, .json, .arrow\n`,
  );
}

/** A file that only variants name belongs to the inputs too; one that is not there is their problem. */
function tryFile(path: string, readFile: (path: string) => Uint8Array): void {
  try {
    readFile(path);
  } catch {}
}
