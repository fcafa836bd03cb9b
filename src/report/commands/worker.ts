import { availableParallelism, hostname } from 'node:os';
import { QueueTrouble, withoutPassword } from '../../scenarios/queue/redis.ts';
import { workOff } from '../../scenarios/queue/work-off.ts';
import { noteBesideProgress } from './files.ts';
import type { Terminal } from './work.ts';

export interface WorkerOptions {
  queue: string;
  workers?: number;
  /** after so long without a sign of life its runs go to another worker [s] */
  lock: number;
}

/** `darkweek worker --queue ...`: does what others have put on a queue, until it is stopped. */
export async function workerCommand(
  { queue, lock: lockS, ...options }: WorkerOptions,
  version: string,
  terminal: Terminal,
): Promise<void> {
  const name = `${hostname()}-${process.pid}`;
  const workers = options.workers ?? availableParallelism();
  const onNote = noteBesideProgress(terminal);
  const onDone = (jobs: number) => {
    if (terminal.showsProgress) process.stderr.write(`\r\x1b[K${jobs} done (Ctrl-C: others take over)`);
  };
  try {
    await workOff({ queue, version, name, workers, lockS, onDone, onNote });
    process.stdout.write(`${name} works at ${withoutPassword(queue)}, ${workers} at a time.\n`);
  } catch (error) {
    if (!(error instanceof QueueTrouble)) throw error;
    onNote(error.message);
    process.exitCode = 1;
  }
}
