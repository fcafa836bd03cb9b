import { appendFileSync, existsSync, mkdirSync, readFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import type { Issue } from '../../scenarios/issue.ts';
import { Filed } from '../../scenarios/many/ground.ts';
import { KeptOutcomes } from '../../scenarios/many/kept-outcomes.ts';
import { namedFiles } from '../../scenarios/many/named-files.ts';
import { nodeThreads } from '../../scenarios/many/node-thread.ts';
import { makePool, type Pool } from '../../scenarios/many/pool.ts';
import { runCells, type Sweep, sweepOf } from '../../scenarios/many/sweep.ts';
import { planSweep, type SweepPlan } from '../../scenarios/many/sweep-plan.ts';
import { WrongVariants } from '../../scenarios/many/wrong-variants.ts';
import { siteHeading, watchReads } from '../../scenarios/run-study.ts';
import { sweepPage } from '../sweep/page.ts';
import { sweepArrow, sweepCsv, sweepJson } from '../sweep/tables.ts';
import { terminalSweep } from '../sweep/terminal.ts';
import { besideSite, printIssues, readSiteText, writeInPlace } from './files.ts';
import { makeProgressLine } from './progress-line.ts';
import type { Terminal } from './work.ts';

export interface SweepOptions {
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
 * `darkweek sweep SITE --vary ...`: many variants of a site over several threads. What each gave is kept in a file in
 * the folder as it comes, so that the same command goes on from there when it was stopped.
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
    const filed = new Filed(text, site);
    const { vary, price: prices, sample, seed } = options;
    const plan = planSweep({ vary, prices, sample, seed }, filed);
    if (Array.isArray(plan)) throw new WrongVariants(plan);
    const study = { text, file: site, readFile: besideSite(site), version, stepMin: options.step };
    const { readFile, inputsHash } = watchReads(study);
    const threads = Math.min(options.workers ?? availableParallelism(), plan.variants.length);
    const pool = makePool({ ...study, readFile }, threads, nodeThreads());
    for (const path of namedFiles(plan.variants)) tryFile(path, readFile);
    const sweep = await runSweep(plan, filed, pool, { version, inputsHash: inputsHash() }, options, terminal);
    pool.close();
    printIssues(pool.doubts);
    showSweep(sweep, pool.doubts, options.out, terminal.columns);
  } catch (error) {
    if (!(error instanceof WrongVariants)) throw error;
    printIssues(error.issues);
    process.exitCode = 1;
  }
}

async function runSweep(
  plan: SweepPlan,
  { site }: Filed,
  pool: Pool,
  made: Sweep['made'],
  { out, unserved, step }: SweepOptions,
  terminal: Terminal,
): Promise<Sweep> {
  const [filed] = await pool.evaluate([{}]);
  const kept = keptIn(join(out, `sweep-${made.inputsHash}.jsonl`), { ...made, filed });
  const line = makeProgressLine('variants', kept.before, terminal.showsProgress);
  const attempts = await runCells(plan, pool.tryEach, kept, line.at);
  line.clear();
  return sweepOf(plan, attempts, {
    site: siteHeading(site),
    stepMin: step ?? site.period.stepMin,
    days: site.period.days,
    ...{ filed, made, mostUnservedKwh: unserved ?? filed.unservedKwh },
  });
}

function keptIn(path: string, belongsTo: ConstructorParameters<typeof KeptOutcomes>[1]): KeptOutcomes {
  const text = existsSync(path) ? readFileSync(path, 'utf8') : null;
  const write = (more: string, how: 'append' | 'replace') => {
    mkdirSync(join(path, '..'), { recursive: true });
    if (how === 'append') appendFileSync(path, more);
    else writeInPlace(path, more);
  };
  return new KeptOutcomes(text, belongsTo, write, () => performance.now());
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
