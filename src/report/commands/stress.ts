import { appendFileSync, mkdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { setImmediate as otherWork } from 'node:timers/promises';
import { keptRuns, runLine, runsHead } from '../../scenarios/many/stress-kept.ts';
import { replayWorst } from '../../scenarios/many/stress-replay.ts';
import { summaryOf } from '../../scenarios/many/stress-result.ts';
import { planStress, runStress } from '../../scenarios/many/stress-study.ts';
import { duration } from '../numbers.ts';
import { stressPage } from '../stress/page.ts';
import { terminalStress } from '../stress/terminal.ts';
import { besideSite, printIssues, readSiteText, writeInPlace } from './files.ts';
import type { Terminal } from './work.ts';

export interface StressOptions {
  only?: string;
  runs?: number;
  seed?: string;
  step?: number;
  out: string;
  json?: boolean;
}

/**
 * `darkweek stress SITE`: many years at once. Each run is kept in a file as soon as it is finished, and the same
 * command goes on from there.
 */
export async function stressCommand(
  site: string,
  options: StressOptions,
  version: string,
  terminal: Terminal,
): Promise<void> {
  const text = readSiteText(site);
  if (text === null) return;
  const { only, runs, seed, step: stepMin } = options;
  const readFile = besideSite(site);
  const { plan, issues } = planStress({ text, file: site, readFile, version, only, runs, seed, stepMin });
  printIssues(issues);
  if (plan === null) {
    process.exitCode = 1;
    return;
  }
  const file = join(options.out, 'stress-runs.jsonl');
  const known = keptRuns(textOf(file), plan.study);
  if (known.count === 0) writeInPlace(file, runsHead(plan.study));
  else if (known.count > 0) process.stderr.write(`${known.count} finished runs are known from ${file}\n`);
  mkdirSync(dirname(file), { recursive: true });
  const startedMs = performance.now();
  const all = plan.study.terms.runs * plan.alternatives.length;
  let fresh = 0;
  let seen = 0;
  for (const { name, done, of, fresh: run } of runStress(plan, known.find)) {
    seen++;
    if (run) {
      fresh++;
      appendFileSync(file, runLine(name, run));
    }
    if (!terminal.showsProgress) continue;
    const leftH = ((performance.now() - startedMs) / 3_600_000 / Math.max(1, fresh)) * (all - seen);
    process.stderr.write(`\r\x1b[K${name}: run ${done} of ${of}; ${duration(leftH)} to go`);
    // what was written leaves this thread only while nothing is computed
    await otherWork();
  }
  if (terminal.showsProgress) process.stderr.write('\r\x1b[K');
  const { study } = plan;
  if (options.json) {
    const summaries = study.alternatives.map((one) => ({ name: one.name, ...summaryOf(one) }));
    process.stdout.write(`${JSON.stringify({ ...study, summaries }, null, 2)}\n`);
    return;
  }
  process.stdout.write(`${terminalStress(study, terminal.columns)}\n`);
  const page = join(options.out, 'stress.html');
  writeInPlace(
    page,
    stressPage(
      study,
      study.alternatives.map((_, i) => replayWorst(plan, i)),
    ),
  );
  process.stdout.write(`Page: ${page}\nRuns: ${file}\n`);
}

function textOf(file: string): string {
  try {
    return readFileSync(file, 'utf8');
  } catch {
    return '';
  }
}
