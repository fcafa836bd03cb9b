/** A worker thread of Node that runs variants. */
import { parentPort } from 'node:worker_threads';
import { makeThreadWork, type ToThread } from './thread.ts';

const work = makeThreadWork();
parentPort?.on('message', (message: ToThread) => {
  const answer = work(message);
  if (answer) parentPort?.postMessage(answer);
});
