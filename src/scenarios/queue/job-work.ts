/** A worker thread of Node that does jobs. */
import { parentPort } from 'node:worker_threads';
import { type Job, JobRefused } from './job.ts';
import type { FromJobThread, ToJobThread } from './job-thread.ts';
import { type Doer, makeDoers } from './kinds.ts';

const doers = makeDoers();

async function answerTo(job: ToJobThread): Promise<FromJobThread> {
  const { kind, version, payload, files, filesKey } = job;
  const readFile = (path: string) => {
    const bytes = files[path];
    if (!bytes) throw new JobRefused(`the job has no file ${path} with it`);
    return bytes;
  };
  try {
    const doer = doers[kind] as Doer<Job['kind']> | undefined;
    if (!doer) throw new JobRefused(`no kind of work '${kind}'`);
    return { result: await doer({ version, payload, readFile, filesKey }) };
  } catch (error) {
    const { message, stack } = error as Error;
    return error instanceof JobRefused ? { refused: message } : { failed: stack ?? message };
  }
}

parentPort?.on('message', async (job: ToJobThread) => parentPort?.postMessage(await answerTo(job)));
