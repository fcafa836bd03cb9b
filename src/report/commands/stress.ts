import { join } from 'node:path';
import { replayWorst } from '../../scenarios/many/stress-replay.ts';
import { type StressStudy, summaryOf } from '../../scenarios/many/stress-result.ts';
import { planStress, runStress, type StressPlan } from '../../scenarios/many/stress-study.ts';
import { QueueTrouble } from '../../scenarios/queue/redis.ts';
import { stressPage } from '../stress/page.ts';
import { terminalStress } from '../stress/terminal.ts';
import { besideSite, note, printIssues, readSiteText, rememberReads, writeInPlace } from './files.ts';
import { keptPath } from './parts.ts';
import type { SpreadOptions } from './spread-options.ts';
import { doneRuns, mergedRuns, RUNS_FILE, type RunOf } from './stress-runs.ts';
import type { Terminal } from './work.ts';

export interface StressOptions extends SpreadOptions {
  only?: string;
  runs?: number;
  seed?: string;
  step?: number;
  workers?: number;
  out: string;
  json?: boolean;
}

/**
 * `darkweek stress SITE`: many years at once, over several threads, parts or machines. Each run is kept in a file as
 * soon as it is finished, and the same command goes on from there.
 */
export async function stressCommand(
  site: string,
  options: StressOptions,
  version: string,
  terminal: Terminal,
): Promise<void> {
  const text = readSiteText(site);
  if (text === null) return;
  const { only, runs, seed, step: stepMin, merge, shard: part } = options;
  const { files, readFile } = rememberReads(besideSite(site));
  const request = { text, file: site, readFile, version, only, runs, seed, stepMin };
  const { plan, issues } = planStress(request);
  printIssues(issues);
  if (plan === null) {
    process.exitCode = 1;
    return;
  }
  const file = keptPath(options.out, RUNS_FILE, part);
  const done = merge
    ? mergedRuns(plan, merge)
    : await orTrouble(() => doneRuns({ plan, request, files, file }, options, terminal));
  if (Array.isArray(done)) printIssues(done);
  if (done === null || Array.isArray(done)) process.exitCode = 1;
  else if (!part) show(plan, studyOf(plan, done), options, terminal, merge ? merge.join(', ') : file);
}

/** What it gives; null, and said, where there is trouble with the queue. */
async function orTrouble<T>(work: () => Promise<T>): Promise<T | null> {
  try {
    return await work();
  } catch (error) {
    if (!(error instanceof QueueTrouble)) throw error;
    note(error.message);
    return null;
  }
}

/** All runs are done: what is left are the years of which nothing is drawn. */
function studyOf(plan: StressPlan, done: RunOf): StressStudy {
  const run = runStress(plan, done);
  let next = run.next();
  while (!next.done) next = run.next();
  return next.value;
}

function show(
  plan: StressPlan,
  study: StressStudy,
  { json, out }: StressOptions,
  { columns }: Terminal,
  where: string,
): void {
  if (json) {
    const summaries = study.alternatives.map((one) => ({ name: one.name, ...summaryOf(one) }));
    process.stdout.write(`${JSON.stringify({ ...study, summaries }, null, 2)}\n`);
    return;
  }
  process.stdout.write(`${terminalStress(study, columns)}\n`);
  const page = join(out, 'stress.html');
  writeInPlace(
    page,
    stressPage(
      study,
      study.alternatives.map((_, i) => replayWorst(plan, i)),
    ),
  );
  process.stdout.write(`Page: ${page}\nRuns: ${where}\n`);
}
