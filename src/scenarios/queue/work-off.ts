import type { Job as QueuedJob } from 'bullmq';
import type { Redis } from 'ioredis';
import { JobRefused } from './job.ts';
import { JobThread } from './job-thread.ts';
import { fetchFile, openRedis, PREFIX, QUEUE } from './redis.ts';
import { jobId, type StoredJob } from './stored-job.ts';

/** How a worker works. */
export interface WorkOff {
  queue: string;
  version: string;
  /** as others see it */
  name: string;
  /** jobs at a time, each on a thread of its own */
  workers: number;
  /** for so long it may be silent before its jobs go to others [s] */
  lockS: number;
  onDone: (jobs: number) => void;
  onNote: (sentence: string) => void;
}

/** A job whose worker has died so often is the cause of it, and fails. */
const MOST_DEATHS = 5;
const TRY_AGAIN_MS = 1_000;
/** In errors of the engine about a result that is handed in. */
const HANDING_IN = 'moveToFinished';
/** The connection says that Redis is away; a lock that is lost shows when the result comes too late. */
const SAID_ELSEWHERE = /ECONN|EPIPE|Connection is closed|could not renew lock/;

/**
 * Takes jobs from a queue and does them, until the program ends. Computing is done on other threads, so that this one
 * goes on telling the queue that it lives, however long a job takes. One that was silent for too long (stopped, or
 * without network) has lost its job to another: what it still gives is not taken.
 * Errors: rejects with `QueueTrouble` where Redis cannot be reached.
 */
export async function workOff(how: WorkOff): Promise<void> {
  const { bullmq, redis } = await openRedis(how.queue, how.onNote);
  const idle = Array.from({ length: how.workers }, () => new JobThread());
  const files = new FetchedFiles(redis);
  let done = 0;
  const work = async ({ id, data }: QueuedJob<StoredJob>) => {
    const thread = idle.pop();
    if (!thread) throw new Error('more jobs at a time than threads');
    try {
      checkJob(id, data, how);
      return await thread.run({ ...data, files: await files.of(data), filesKey: JSON.stringify(data.files) });
    } catch (error) {
      if (!(error instanceof JobRefused)) throw error;
      throw new bullmq.UnrecoverableError(`${how.name}: ${error.message}`);
    } finally {
      idle.push(thread);
    }
  };
  const lockMs = how.lockS * 1000;
  const worker = new bullmq.Worker<StoredJob>(QUEUE, work, {
    connection: redis,
    prefix: PREFIX,
    name: how.name,
    concurrency: how.workers,
    lockDuration: lockMs,
    stalledInterval: lockMs / 2,
    maxStalledCount: MOST_DEATHS,
    runRetryDelay: TRY_AGAIN_MS,
  });
  worker.on('completed', () => how.onDone(++done));
  worker.on('failed', (job, error) => how.onNote(`${job?.name ?? 'a job'}: ${error.message}`));
  const { JobLockNotExist, JobLockMismatch, JobNotInState, JobNotExist } = bullmq.ErrorCode;
  const late: unknown[] = [JobLockNotExist, JobLockMismatch, JobNotInState, JobNotExist];
  worker.on('error', (error: Error & { code?: unknown }) => {
    if (late.includes(error.code) && error.message.includes(HANDING_IN))
      how.onNote('a result came too late and is not taken: its job went to another worker');
    else if (!late.includes(error.code) && !SAID_ELSEWHERE.test(error.message)) how.onNote(error.message);
  });
  await worker.waitUntilReady();
}

function checkJob(id: string | undefined, job: StoredJob, { version }: WorkOff): void {
  if (job.version !== version)
    throw new JobRefused(`the job was made by darkweek ${job.version}, and this is ${version}`);
  if (jobId(job) !== id) throw new JobRefused('the job is not what its name says');
}

/** Files of the last jobs, from Redis. */
class FetchedFiles {
  private kept = new Map<string, Uint8Array>();

  constructor(private readonly redis: Redis) {}

  /** Errors: rejects with `JobRefused` where one is not there, or is not what its name says. */
  async of({ files }: StoredJob): Promise<Record<string, Uint8Array>> {
    const named = Object.entries(files).map(async ([name, hash]) => {
      return { name, hash, bytes: await this.file(hash) };
    });
    const found = await Promise.all(named);
    // those of other sites are let go
    this.kept = new Map(found.map(({ hash, bytes }) => [hash, bytes]));
    return Object.fromEntries(found.map(({ name, bytes }) => [name, bytes]));
  }

  private async file(hash: string): Promise<Uint8Array> {
    const known = this.kept.get(hash);
    if (known) return known;
    const bytes = await fetchFile(this.redis, hash);
    if (!bytes) throw new JobRefused('a file of the job is no longer there: run its command again');
    return bytes;
  }
}
