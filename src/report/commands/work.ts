/**
 * A command's work, on a thread of its own: the door stays free to answer Ctrl-C at once, however long a
 * simulation or a drawing takes.
 */
import { workerData } from 'node:worker_threads';
import { type BoundOptions, boundCommand } from './bound.ts';
import { type BreakEvenOptions, breakEvenCommand } from './break-even.ts';
import { checkCommand } from './check.ts';
import { type FolderOptions, folderCommand } from './folder.ts';
import { type HorizonOptions, horizonCommand } from './horizon.ts';
import { type LogOptions, logCommand } from './log.ts';
import { type LookOptions, lookCommand } from './look.ts';
import { type SensitivityOptions, sensitivityCommand } from './sensitivity.ts';
import { type SimulateOptions, simulateCommand } from './simulate.ts';
import { type SitesOptions, sitesCommand } from './sites.ts';
import { type SizeOptions, sizeCommand } from './size.ts';
import { type StressOptions, stressCommand } from './stress.ts';
import { type SweepOptions, sweepCommand } from './sweep.ts';
import { type TuneOptions, tuneCommand } from './tune.ts';
import { type VisitOptions, visitCommand } from './visit.ts';
import { type WhyOptions, whyCommand } from './why.ts';
import { type WorkbenchOptions, workbenchCommand } from './workbench.ts';
import { type WorkerOptions, workerCommand } from './worker.ts';

/** What the door asks for. */
export type Job = { version: string; terminal: Terminal } & Asked;

export type Asked =
  | { command: 'simulate'; site: string; options: SimulateOptions }
  | { command: 'bound'; site: string; options: BoundOptions }
  | { command: 'why'; site: string; options: WhyOptions }
  | { command: 'horizon'; site: string; options: HorizonOptions }
  | { command: 'sweep'; site: string; options: SweepOptions }
  | { command: 'tune'; site: string; options: TuneOptions }
  | { command: 'size'; site: string; options: SizeOptions }
  | { command: 'break-even'; site: string; names: [string, string]; options: BreakEvenOptions }
  | { command: 'sensitivity'; site: string; options: SensitivityOptions }
  | { command: 'stress'; site: string; options: StressOptions }
  | { command: 'worker'; options: WorkerOptions }
  | { command: 'folder'; site: string; options: FolderOptions }
  | { command: 'check'; site: string; options: { step?: number } }
  | { command: 'log'; site: string; options: LogOptions }
  | { command: 'visit'; site: string; options: VisitOptions }
  | { command: 'sites'; folder: string; options: SitesOptions }
  | { command: 'workbench'; folder: string; options: WorkbenchOptions }
  | { command: 'look'; files: string[]; options: LookOptions };

/** What a thread cannot find out about the terminal by itself. */
export interface Terminal {
  columns: number;
  /** whether standard error is a terminal, so that progress may be shown */
  showsProgress: boolean;
}

const job = workerData as Job;
if (job.command === 'simulate') await simulateCommand(job.site, job.options, job.version, job.terminal);
else if (job.command === 'bound') await boundCommand(job.site, job.options, job.version, job.terminal);
else if (job.command === 'why') whyCommand(job.site, job.options, job.version, job.terminal);
else if (job.command === 'horizon') await horizonCommand(job.site, job.options, job.version, job.terminal);
else if (job.command === 'sweep') await sweepCommand(job.site, job.options, job.version, job.terminal);
else if (job.command === 'tune') await tuneCommand(job.site, job.options, job.version, job.terminal);
else if (job.command === 'size') await sizeCommand(job.site, job.options, job.version, job.terminal);
else if (job.command === 'break-even')
  await breakEvenCommand(job.site, job.names, job.options, job.version, job.terminal);
else if (job.command === 'sensitivity')
  await sensitivityCommand(job.site, job.options, job.version, job.terminal);
else if (job.command === 'stress') await stressCommand(job.site, job.options, job.version, job.terminal);
else if (job.command === 'worker') await workerCommand(job.options, job.version, job.terminal);
else if (job.command === 'folder') await folderCommand(job.site, job.options, job.version);
else if (job.command === 'log') logCommand(job.site, job.options);
else if (job.command === 'visit') await visitCommand(job.site, job.options, job.version, job.terminal);
else if (job.command === 'sites') await sitesCommand(job.folder, job.options, job.version, job.terminal);
else if (job.command === 'workbench') workbenchCommand(job.folder, job.options);
else if (job.command === 'look') lookCommand(job.files, job.options);
else checkCommand(job.site, job.options, job.version);
