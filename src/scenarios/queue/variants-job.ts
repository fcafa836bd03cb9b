import type { SiteChanges } from '../apply-changes.ts';
import type { Attempt } from '../many/evaluate.ts';
import { Filed, makeSeries } from '../many/ground.ts';
import type { Outcome } from '../many/outcome.ts';
import { Runner } from '../many/runner.ts';
import { JobRefused, SITE_TEXT } from './job.ts';
import type { Doer, JobAtHand } from './kinds.ts';
import { lastGround } from './last-ground.ts';

/** Some variants of a site. */
export interface VariantsJob {
  /** what the site file is called where the job comes from */
  file: string;
  /** another step than the site file's [min], or null */
  stepMin: number | null;
  /** what the site as filed gives there: an engine that gives another must not take part */
  filed: Outcome;
  variants: SiteChanges[];
}

/** What each of them gave, in their order. */
export type VariantsJobResult = Attempt[];

/** Runs variants of one site after another; what their series share is made once a site and step. */
export function makeVariantsDoer(): Doer<'variants'> {
  const runnerOf = lastGround(makeRunner);
  return (job) => {
    const { file, stepMin, filed, variants } = job.payload;
    const runner = runnerOf(JSON.stringify([file, stepMin, filed, job.filesKey]), job);
    return variants.map((changes) => runner.run(changes));
  };
}

function makeRunner({ payload, readFile }: JobAtHand<'variants'>): Runner {
  const { file, stepMin } = payload;
  const text = new TextDecoder().decode(readFile(SITE_TEXT));
  const { series } = makeSeries({ text, file, readFile, stepMin: stepMin ?? undefined });
  const runner = new Runner(new Filed(text, file), series, readFile, stepMin);
  if (JSON.stringify(runner.run({})) !== JSON.stringify(payload.filed))
    throw new JobRefused('the site as filed gives other numbers here than where the job comes from');
  return runner;
}
