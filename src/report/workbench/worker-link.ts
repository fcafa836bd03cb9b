import { type Remote, wrap } from 'comlink';
import type { Bench } from './worker/bench.ts';
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
