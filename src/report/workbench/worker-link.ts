import { type Remote, wrap } from 'comlink';
import type { Bench } from './worker/bench.ts';
import type { Studies } from './worker/studies.ts';
import BenchWorker from './worker/worker.ts?worker&inline';

/** A bench in a worker of its own. */
export interface Link {
  bench: Remote<Bench>;
  stop(): void;
}

export function startBench(): Link {
  const worker = new BenchWorker();
  return { bench: wrap<Bench>(worker), stop: () => worker.terminate() };
}

/** The bench that draws: it must never be kept busy for long. */
export const drawing = startBench();

/** Studies of many runs, in a worker of their own. */
export function startStudies(): Remote<Studies> {
  return wrap<Studies>(new BenchWorker({ name: 'studies' }));
}

/**
 * A worker that runs variants for the studies.
 * @param port     where it is told which
 * @param onFailed told when it could not be started or has died
 */
export function startThread(port: MessagePort, onFailed: (why: string) => void): Worker {
  const worker = new BenchWorker({ name: 'thread' });
  worker.onerror = ({ message }) => onFailed(message);
  worker.postMessage(port, [port]);
  return worker;
}
