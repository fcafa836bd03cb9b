/**
 * A command's work, on a thread of its own: the door stays free to answer Ctrl-C at once, however long a
 * simulation or a drawing takes.
 */
import { workerData } from 'node:worker_threads';
import { checkCommand } from './check.ts';
import { type SimulateOptions, simulateCommand } from './simulate.ts';

/** What the door asks for. */
export type Job = { version: string; site: string; terminal: Terminal } & (
  | { command: 'simulate'; options: SimulateOptions }
  | { command: 'check'; options: { step?: number } }
);

/** What a thread cannot find out about the terminal by itself. */
export interface Terminal {
  columns: number;
  /** whether standard error is a terminal, so that progress may be shown */
  showsProgress: boolean;
}

const job = workerData as Job;
if (job.command === 'simulate') simulateCommand(job.site, job.options, job.version, job.terminal);
else checkCommand(job.site, job.options, job.version);
