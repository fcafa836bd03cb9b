/**
 * A command's work, on a thread of its own: the door stays free to answer Ctrl-C at once, however long a
 * simulation or a drawing takes.
 */
import { workerData } from 'node:worker_threads';
import { checkCommand } from './check.ts';
import { type HorizonOptions, horizonCommand } from './horizon.ts';
import { type LookOptions, lookCommand } from './look.ts';
import { type SimulateOptions, simulateCommand } from './simulate.ts';
import { type WhyOptions, whyCommand } from './why.ts';
import { type WorkbenchOptions, workbenchCommand } from './workbench.ts';

/** What the door asks for. */
export type Job = { version: string; terminal: Terminal } & Asked;

export type Asked =
  | { command: 'simulate'; site: string; options: SimulateOptions }
  | { command: 'why'; site: string; options: WhyOptions }
  | { command: 'horizon'; site: string; options: HorizonOptions }
  | { command: 'check'; site: string; options: { step?: number } }
  | { command: 'workbench'; folder: string; options: WorkbenchOptions }
  | { command: 'look'; files: string[]; options: LookOptions };

/** What a thread cannot find out about the terminal by itself. */
export interface Terminal {
  columns: number;
  /** whether standard error is a terminal, so that progress may be shown */
  showsProgress: boolean;
}

const job = workerData as Job;
if (job.command === 'simulate') simulateCommand(job.site, job.options, job.version, job.terminal);
else if (job.command === 'why') whyCommand(job.site, job.options, job.version, job.terminal);
else if (job.command === 'horizon') await horizonCommand(job.site, job.options, job.version, job.terminal);
else if (job.command === 'workbench') workbenchCommand(job.folder, job.options);
else if (job.command === 'look') lookCommand(job.files, job.options);
else checkCommand(job.site, job.options, job.version);
