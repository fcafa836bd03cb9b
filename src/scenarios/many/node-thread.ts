import { dirname, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import type { FromThread, StartThread } from './thread.ts';

/** Beside the file that this one is bundled into. */
const WORK = resolve(dirname(fileURLToPath(import.meta.url)), 'many-work.js');

/**
 * Starts worker threads of Node.
 * @param work the bundle of `work.ts`
 */
export function nodeThreads(work = WORK): StartThread {
  return () => {
    const worker = new Worker(work);
    return {
      send: (message) => worker.postMessage(message),
      onAnswer: (listener) => worker.on('message', (answer: FromThread) => listener(answer)),
      onEnd: (listener) => {
        let why = '';
        worker.on('error', (error) => {
          why = error.stack ?? String(error);
        });
        worker.on('exit', (code) => listener(why || `exit code ${code}`));
      },
      stop: () => void worker.terminate(),
    };
  };
}
