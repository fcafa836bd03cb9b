import { appendFileSync, existsSync, readFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import type { Issue } from '../../scenarios/issue.ts';
import { keptRuns, runLine, runsHead } from '../../scenarios/many/stress-kept.ts';
import type { StressRun } from '../../scenarios/many/stress-result.ts';
import type { StressPlan, StressRequest } from '../../scenarios/many/stress-study.ts';
import { missingParts, shareOfPart } from '../../scenarios/many/work-part.ts';
import { runJobs } from '../../scenarios/queue/run-jobs.ts';
import { type StressUnit, stressJobs, stressUnits } from '../../scenarios/queue/stress-job.ts';
import { note, noteBesideProgress, writeInPlace } from './files.ts';
import { partFiles, partSentence } from './parts.ts';
import { makeProgressLine } from './progress-line.ts';
import type { SpreadOptions } from './spread-options.ts';
import type { Terminal } from './work.ts';

/** A run of an alternative; null where it is not done. */
export type RunOf = (name: string, run: number) => StressRun | null;

/** Where finished runs are kept; parts have files of their own beside it. */
export const RUNS_FILE = 'stress-runs.jsonl';

interface Work {
  plan: StressPlan;
  request: StressRequest;
  /** all that the plan has read */
  files: Readonly<Record<string, Uint8Array>>;
  /** where finished runs are kept */
  file: string;
}

/**
 * Does all runs, or those of a part, that are not known from the kept file, and keeps each as it comes.
 * Errors: rejects with `QueueTrouble` where a queue cannot be reached.
 */
export async function doneRuns(
  { plan, request, files, file }: Work,
  { shard: part, queue, workers }: SpreadOptions & { workers?: number },
  terminal: Terminal,
): Promise<RunOf> {
  const known = keptRuns(existsSync(file) ? readFileSync(file, 'utf8') : '', plan.study);
  if (known.count === 0) writeInPlace(file, runsHead(plan.study));
  else note(`${known.count} finished runs are known from ${file}`);
  const all = stressUnits(plan);
  const wanted = part ? shareOfPart(all, part) : all;
  const open = wanted.filter(({ name, run }) => known.find(name, run) === null);
  const fresh = new Map<string, StressRun>();
  const line = makeProgressLine('runs', wanted.length - open.length, terminal.showsProgress);
  line.at(0, open.length);
  const onNote = noteBesideProgress(terminal);
  const how = queue ? { queue, onNote } : { workers: workers ?? availableParallelism() };
  await runJobs(stressJobs(plan, request, files, open), how, (job, [run]) => {
    appendFileSync(file, runLine(open[job].name, run));
    fresh.set(keyOf(open[job]), run);
    line.at(fresh.size, open.length);
  }).finally(line.clear);
  if (part) process.stdout.write(partSentence(part, `${wanted.length} of ${all.length} runs`, file));
  return (name, run) => fresh.get(keyOf({ name, run })) ?? known.find(name, run);
}

/** Runs from the files of parts; or every part that is missing. */
export function mergedRuns(plan: StressPlan, folders: readonly string[]): RunOf | Issue[] {
  const found = partFiles(RUNS_FILE, folders);
  const parts = found.map(({ text }) => keptRuns(text, plan.study));
  const find: RunOf = (name, run) => {
    for (const part of parts) {
      const one = part.find(name, run);
      if (one) return one;
    }
    return null;
  };
  const has = ({ name, run }: StressUnit) => find(name, run) !== null;
  const there = found.map(({ part }) => part);
  const missing = missingParts(stressUnits(plan), has, there, 'runs', folders);
  return missing.length > 0 ? missing : find;
}

function keyOf({ name, run }: StressUnit): string {
  return `${run} ${name}`;
}
