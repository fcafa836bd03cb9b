import { setTimeout as pause } from 'node:timers/promises';
import type { Queue } from 'bullmq';
import { fileHash } from './file-hash.ts';
import type { Job } from './job.ts';
import { KEPT_S, openRedis, PREFIX, putFiles, QUEUE, QueueTrouble, withoutPassword } from './redis.ts';
import { jobId, type StoredJob, storedJob } from './stored-job.ts';

const KEPT = { age: KEPT_S };
/** A thread of a worker may die over a job; a job of a worker that dies is not counted here. */
const ATTEMPTS = 3;
/** Of the jobs that are not done, so many of the oldest are asked about at a time: they are done about in turn. */
const LOOKED_AT = 1000;
const LOOK_EVERY_MS = 200;
/** After so long without a result it is asked whether anybody works at all. */
const QUIET_MS = 5_000;

/** A queue at which others work. */
export interface AtQueue {
  /** address of its Redis */
  queue: string;
  /** told what a person should know meanwhile */
  onNote: (sentence: string) => void;
}

/** A job to be collected, and the places in the list that it stands for. */
interface Wanted {
  stored: StoredJob;
  indices: number[];
}

/**
 * Puts jobs on a queue and waits for all results. A job has its inputs' hash for a name: one that is there already
 * is not put there again, and a result that is there is taken. It asks for results instead of being told, so that
 * nothing is missed while Redis or the way to it is down.
 * @param keep told of each result, once
 * Errors: rejects with `QueueTrouble` where Redis cannot be reached, or a job cannot be done.
 */
export async function collect(
  jobs: readonly Job[],
  { queue: url, onNote }: AtQueue,
  keep: (index: number, result: unknown) => void,
): Promise<void> {
  if (jobs.length === 0) return;
  const { bullmq, redis } = await openRedis(url, onNote);
  const queue = new bullmq.Queue(QUEUE, { connection: redis, prefix: PREFIX });
  // while Redis is away, commands wait, and it is said by the connection
  queue.on('error', () => {});
  const open = wantedById(jobs);
  const files = new Map(jobs.flatMap((job) => Object.values(job.files)).map((one) => [fileHash(one), one]));
  const put = async (ids: readonly string[]) => {
    await putFiles(redis, files);
    await putJobs(queue, ids, open);
  };
  try {
    await removeFailed(queue, [...open.keys()]);
    await put([...open.keys()]);
    const quiet = quietWatch(queue, () =>
      onNote(`nobody works at ${withoutPassword(url)} yet: darkweek worker --queue ${withoutPassword(url)}`),
    );
    while (open.size > 0) {
      const { done, lost } = await look(queue, open);
      for (const { id, result } of done) {
        for (const index of open.get(id)?.indices ?? []) keep(index, result);
        open.delete(id);
      }
      // Redis has forgotten them: it was emptied, or restarted without its append-only file
      if (lost.length > 0) await put(lost);
      if (done.length === 0) await pause(LOOK_EVERY_MS);
      await quiet(done.length > 0);
    }
  } finally {
    await queue.close();
    redis.disconnect();
  }
}

function wantedById(jobs: readonly Job[]): Map<string, Wanted> {
  const wanted = new Map<string, Wanted>();
  for (const [index, job] of jobs.entries()) {
    const stored = storedJob(job);
    const id = jobId(stored);
    const one = wanted.get(id) ?? { stored, indices: [] };
    one.indices.push(index);
    wanted.set(id, one);
  }
  return wanted;
}

/** What failed an earlier time is tried again. */
async function removeFailed(queue: Queue, ids: readonly string[]): Promise<void> {
  for (const some of portions(ids)) {
    const states = await Promise.all(some.map((id) => queue.getJobState(id)));
    await Promise.all(some.filter((_, i) => states[i] === 'failed').map((id) => queue.remove(id)));
  }
}

async function putJobs(queue: Queue, ids: readonly string[], wanted: ReadonlyMap<string, Wanted>) {
  const opts = { attempts: ATTEMPTS, removeOnComplete: KEPT, removeOnFail: KEPT };
  for (const some of portions(ids)) {
    const jobs = some.flatMap((id) => {
      const data = wanted.get(id)?.stored;
      return data ? [{ name: data.kind, data, opts: { ...opts, jobId: id } }] : [];
    });
    await queue.addBulk(jobs);
  }
}

/** Looks after the jobs that have waited longest. */
async function look(queue: Queue, open: ReadonlyMap<string, Wanted>) {
  const ids = [...open.keys()].slice(0, LOOKED_AT);
  const states = await Promise.all(ids.map((id) => queue.getJobState(id)));
  const of = (state: string) => ids.filter((_, i) => states[i] === state);
  const [failed] = of('failed');
  if (failed) {
    const reason = (await queue.getJob(failed))?.failedReason;
    throw new QueueTrouble(`a worker at the queue could not do its part: ${reason ?? 'no reason given'}`);
  }
  const done = await Promise.all(of('completed').map(async (id) => ({ id, job: await queue.getJob(id) })));
  return {
    done: done.flatMap(({ id, job }) => (job ? [{ id, result: job.returnvalue as unknown }] : [])),
    lost: of('unknown'),
  };
}

/** Tells once when nothing comes because nobody works. */
function quietWatch(queue: Queue, tell: () => void) {
  let sinceMs = performance.now();
  let told = false;
  return async (something: boolean) => {
    if (something) sinceMs = performance.now();
    if (told || performance.now() - sinceMs < QUIET_MS) return;
    sinceMs = performance.now();
    if ((await queue.getWorkersCount()) > 0) return;
    told = true;
    tell();
  };
}

function* portions(ids: readonly string[]): Generator<string[]> {
  for (let from = 0; from < ids.length; from += LOOKED_AT) yield ids.slice(from, from + LOOKED_AT);
}
