/** Who is at which job of a queue, for tests that stop workers in the middle of one. */
import { hostname } from 'node:os';
import { setTimeout as pause } from 'node:timers/promises';
import type { Queue } from 'bullmq';
import type { Redis } from 'ioredis';
import { PREFIX, QUEUE } from '../../../src/scenarios/queue/redis.ts';
import type { Running } from './command.ts';
import { until } from './until.ts';

/** The queue as a test looks at it, also while its Redis is away. */
export async function openQueue(url: string): Promise<{ queue: Queue; connection: Redis }> {
  const [bullmq, ioredis] = await Promise.all([import('bullmq'), import('ioredis')]);
  const connection = new ioredis.Redis(url, { maxRetriesPerRequest: null, retryStrategy: () => 50 });
  connection.on('error', () => {});
  const queue = new bullmq.Queue(QUEUE, { connection, prefix: PREFIX });
  queue.on('error', () => {});
  return { queue, connection };
}

/** Under which a worker is known at the queue. */
export const nameOf = ({ child }: Running) => `${hostname()}-${child.pid}`;

/** The job that a worker is at; null where it is at none. */
export async function jobOf(queue: Queue, worker: Running): Promise<string | null> {
  const jobs = await queue.getActive();
  return jobs.find((job) => job?.processedBy === nameOf(worker))?.id ?? null;
}

/** Stops a worker in the middle of a job, which is not done then. @returns the job */
export function stopInAJob(queue: Queue, worker: Running): Promise<string> {
  return until('a worker in a job', async () => {
    if (!(await jobOf(queue, worker))) return null;
    worker.child.kill('SIGSTOP');
    // what it had sent by then comes through
    await pause(100);
    const job = await jobOf(queue, worker);
    if (!job) worker.child.kill('SIGCONT');
    return job;
  });
}
