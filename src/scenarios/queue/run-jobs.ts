import { ThreadEnded } from '../many/seat.ts';
import { type AtQueue, collect } from './collect.ts';
import { filesKey } from './file-hash.ts';
import type { Job, JobKind, JobKinds } from './job.ts';
import { JobThread } from './job-thread.ts';

/** Where jobs are done: on so many threads of this machine, or by whoever works at a queue. */
export type How = OnThreads | AtQueue;

interface OnThreads {
  workers: number;
  /** of `job-work.ts`; left out: beside the running program */
  bundle?: string;
}

/**
 * Does jobs, in whatever order; the results are the same wherever they are done.
 * @param onDone told of each as it is done, once
 * @returns what each gave, in their order
 * Errors: rejects with the first that cannot be done (`QueueTrouble` at a queue), and takes up no further one.
 */
export async function runJobs<K extends JobKind>(
  jobs: readonly Job<K>[],
  how: How,
  onDone: (index: number, result: JobKinds[K]['result']) => void = () => {},
): Promise<JobKinds[K]['result'][]> {
  const results: JobKinds[K]['result'][] = new Array(jobs.length);
  const keep = (index: number, result: unknown) => {
    results[index] = result as JobKinds[K]['result'];
    onDone(index, results[index]);
  };
  if ('queue' in how) await collect(jobs, how, keep);
  else await onThreads(jobs, how, keep);
  return results;
}

async function onThreads(
  jobs: readonly Job[],
  { workers, bundle }: OnThreads,
  keep: (index: number, result: unknown) => void,
): Promise<void> {
  const threads = Array.from({ length: Math.min(workers, jobs.length) }, () => new JobThread(bundle));
  let next = 0;
  const serve = async (thread: JobThread) => {
    while (next < jobs.length) {
      const index = next++;
      keep(index, await twice(thread, jobs[index]));
    }
  };
  try {
    await Promise.all(threads.map(serve));
  } finally {
    next = jobs.length;
    for (const thread of threads) thread.stop();
  }
}

/** A job over which a thread dies is done again once. */
async function twice(thread: JobThread, job: Job): Promise<unknown> {
  const told = { ...job, filesKey: filesKey(job.files) };
  try {
    return await thread.run(told);
  } catch (error) {
    if (!(error instanceof ThreadEnded)) throw error;
    return thread.run(told);
  }
}
