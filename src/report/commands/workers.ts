import { availableParallelism } from 'node:os';
import type { Evaluate } from '../../scenarios/many/evaluate.ts';
import { makeEvaluator } from '../../scenarios/many/evaluate.ts';
import type { ManyRequest } from '../../scenarios/many/ground.ts';
import { nodeThreads } from '../../scenarios/many/node-thread.ts';
import { makePool } from '../../scenarios/many/pool.ts';

/**
 * Runs work with an evaluator over worker threads, and ends them.
 * @param workers how many; default: as many as the machine has cores; 1: in this thread
 */
export async function withWorkers<T>(
  request: ManyRequest,
  workers: number | undefined,
  work: (evaluate: Evaluate) => Promise<T>,
): Promise<T> {
  const count = workers ?? availableParallelism();
  if (count === 1) return work(makeEvaluator(request).evaluate);
  const pool = makePool(request, count, nodeThreads());
  try {
    return await work(pool.evaluate);
  } finally {
    pool.close();
  }
}
