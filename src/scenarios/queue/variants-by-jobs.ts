import type { TryEach } from '../many/evaluate.ts';
import type { ManyRequest } from '../many/ground.ts';
import type { Outcome } from '../many/outcome.ts';
import { type Job, SITE_TEXT } from './job.ts';
import { type How, runJobs } from './run-jobs.ts';

/** Variants in a job: seconds of work, against milliseconds of handing over. */
const IN_A_JOB = 16;

/** What all jobs about the variants of a site share. */
export interface VariantsGround {
  request: Pick<ManyRequest, 'text' | 'file' | 'stepMin'>;
  version: string;
  /** what the site as filed gives */
  filed: Outcome;
  /** all files that the site or its variants name */
  files: Readonly<Record<string, Uint8Array>>;
}

/** Tries variants by jobs, wherever they are done. */
export function tryEachByJobs({ request, version, filed, files }: VariantsGround, how: How): TryEach {
  const { text, file } = request;
  const withSite = { ...files, [SITE_TEXT]: new TextEncoder().encode(text) };
  return async (variants, stepMin = request.stepMin, onDone = () => {}) => {
    const jobs: Job<'variants'>[] = [];
    for (let from = 0; from < variants.length; from += IN_A_JOB) {
      const some = variants.slice(from, from + IN_A_JOB);
      const payload = { file, stepMin: stepMin ?? null, filed, variants: some };
      jobs.push({ kind: 'variants', version, payload, files: withSite });
    }
    const results = await runJobs(jobs, how, (job, attempts) => {
      for (const [i, attempt] of attempts.entries()) onDone(job * IN_A_JOB + i, attempt);
    });
    return results.flat();
  };
}
