import type { ReadFile } from '../load-files.ts';
import type { Job, JobKind, JobKinds } from './job.ts';
import { makeStressDoer } from './stress-job.ts';
import { makeVariantsDoer } from './variants-job.ts';
import { makeVisitDoer } from './visit-job.ts';

/** A job as it is done: its files are read by name. */
export interface JobAtHand<K extends JobKind = JobKind> extends Pick<Job<K>, 'version' | 'payload'> {
  readFile: ReadFile;
  /** other for other files: what was made of the same ones may be used again */
  filesKey: string;
}

/**
 * Does jobs of one kind, at once or later. What is wrong with what a user gave us is part of the result.
 * Errors: throws `JobRefused` where the job cannot be done by this version, engine or set of files.
 */
export type Doer<K extends JobKind> = (
  job: JobAtHand<K>,
) => JobKinds[K]['result'] | Promise<JobKinds[K]['result']>;

/** Those who do the jobs of each kind; they keep what they made of a site for the next job about it. */
export function makeDoers(): { [K in JobKind]: Doer<K> } {
  return { variants: makeVariantsDoer(), 'stress runs': makeStressDoer(), visit: makeVisitDoer() };
}
