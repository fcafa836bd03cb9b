#!/usr/bin/env node
import { dirname, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { Command, CommanderError, Option } from 'commander';
import pkg from '../package.json' with { type: 'json' };
import type { Asked, Job } from './report/commands/work.ts';
import { READERS } from './scenarios/readers.ts';
import { siteJsonSchema } from './scenarios/site-schema.ts';

const HERE = dirname(fileURLToPath(import.meta.url));
const FARM = resolve(HERE, '../profiles/sites/farm.yaml');

const program = new Command('darkweek')
  .description('Simulates a stand-alone power system step by step and compares alternatives.')
  .version(pkg.version)
  .exitOverride()
  .configureOutput({ writeErr: (text) => process.stderr.write(text) })
  .showHelpAfterError('(darkweek --help lists the commands)');

program
  .command('simulate')
  .description('simulate a site and its alternatives; table, sentences and a report page')
  .argument('<site>', 'site file, YAML or JSON')
  .option('--only <alternative>', 'only this alternative beside the site as filed')
  .option('--step <minutes>', 'another step than the site file has', wholeMinutes)
  .option('--out <folder>', 'where the report page goes', 'out')
  .option('--json', 'everything as JSON on standard output, no page')
  .option('--csv <file>', 'per-step columns of the last alternative simulated')
  .action((site, options) => start({ command: 'simulate', site, options }));

program
  .command('why')
  .description('why the generator started, and what would have avoided it, by running the site again')
  .argument('<site>', 'site file, YAML or JSON')
  .option('--alternative <name>', 'of this alternative instead of the site as filed')
  .addOption(new Option('--run <number>', 'only this run, from 1').argParser(wholeRun).conflicts('at'))
  .addOption(
    new Option('--at <time>', 'only the run at or nearest to this local time: 2025-01-12T18:00').argParser(
      localTime,
    ),
  )
  .option('--step <minutes>', 'another step than the site file has', wholeMinutes)
  .action((site, options) => start({ command: 'why', site, options }));

program
  .command('horizon')
  .description(
    'simulate every year of the study one after the other: fading battery, growing load, weather in turn',
  )
  .argument('<site>', 'site file, YAML or JSON, with a period of 365 days')
  .option('--only <alternative>', 'only this alternative beside the site as filed')
  .option('--step <minutes>', 'another step than the site file has', wholeMinutes)
  .option('--out <folder>', 'where the page goes', 'out')
  .option('--json', 'every year as JSON on standard output, no page')
  .action((site, options) => start({ command: 'horizon', site, options }));

program
  .command('check')
  .description('read a site file and all it names; list every problem and doubt; simulate nothing')
  .argument('<site>', 'site file, YAML or JSON')
  .option('--step <minutes>', 'another step than the site file has', wholeMinutes)
  .action((site, options) => start({ command: 'check', site, options }));

program
  .command('look')
  .description('read data files of any kind; data sheet, every doubt, and a page of pictures')
  .argument('<files...>', 'meter, load and weather files')
  .addOption(new Option('--as <reader>', 'read as this, whatever it looks like').choices(READERS))
  .addOption(
    new Option('--stamp <which>', 'rows of a plain CSV are stamped at the').choices(['start', 'end']),
  )
  .option('--zone <zone>', "clock of a plain CSV, and of the pictures: 'Europe/Berlin', '+10:00'")
  .addOption(new Option('--dates <order>', 'order of dates in a plain CSV').choices(['ymd', 'dmy', 'mdy']))
  .option('--meter <id>', 'the meter to read where a file holds several')
  .option('--out <folder>', 'where the page goes', 'out')
  .action((files, { as, stamp, zone, dates, meter, out }) =>
    start({
      command: 'look',
      files,
      options: { reader: as, stamp, timeZone: zone, dateOrder: dates, meter, out },
    }),
  );

program
  .command('workbench')
  .description('serve the workbench, with the site files of a folder, to a browser on this machine')
  .argument('[folder]', 'folder of site files', '.')
  .addOption(new Option('--port <number>', 'where it listens').default(8642).argParser(portNumber))
  .action((folder, options) => start({ command: 'workbench', folder, options }));

program
  .command('schema')
  .description('print the JSON Schema of the site file, so that an editor completes it')
  .action(() => {
    process.stdout.write(`${JSON.stringify(siteJsonSchema(), null, 2)}\n`);
  });

program
  .command('demo')
  .description('simulate the farm in profiles/sites')
  .option('--out <folder>', 'where the report page goes', 'out')
  .action((options) => start({ command: 'simulate', site: FARM, options }));

/** A step of whole minutes that divides an hour. */
function wholeMinutes(text: string): number {
  const minutes = Number(text);
  if (Number.isInteger(minutes) && minutes >= 1 && 60 % minutes === 0) return minutes;
  throw new CommanderError(
    2,
    'step',
    `error: --step ${text}: expected whole minutes that divide 60, 1 to 60`,
  );
}

function wholeRun(text: string): number {
  const run = Number(text);
  if (Number.isInteger(run) && run >= 1) return run;
  throw new CommanderError(2, 'run', `error: --run ${text}: expected a whole number from 1`);
}

/** 0: any that is free. */
function portNumber(text: string): number {
  const port = Number(text);
  if (Number.isInteger(port) && port >= 0 && port <= 65_535) return port;
  throw new CommanderError(2, 'port', `error: --port ${text}: expected a whole number from 0 to 65535`);
}

function localTime(text: string): string {
  const isTime = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$/.test(text) && !Number.isNaN(Date.parse(`${text}Z`));
  if (isTime) return text;
  throw new CommanderError(2, 'at', `error: --at ${text}: expected a local time such as 2025-01-12T18:00`);
}

/** Starts a command's work on its own thread, and stops at once on Ctrl-C. */
function start(asked: Asked): void {
  const terminal = { columns: process.stdout.columns ?? 100, showsProgress: process.stderr.isTTY === true };
  const job = { ...asked, version: pkg.version, terminal } as Job;
  const colour = process.stdout.isTTY ? { FORCE_COLOR: '1' } : {};
  const worker = new Worker(resolve(HERE, 'work.js'), {
    workerData: job,
    env: { ...colour, ...process.env },
  });
  worker.on('error', (error) => {
    throw error;
  });
  worker.on('exit', (code) => {
    process.exitCode = code;
  });
  process.on('SIGINT', () => {
    const kept = asked.command === 'horizon' ? ' Alternatives that were finished are on the page.' : '';
    process.stderr.write(`\nStopped. Nothing was written half.${kept}\n`);
    process.exit(130);
  });
}

// whoever reads the output may stop reading (`| head`)
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
  process.exit(0);
});

try {
  program.parse();
} catch (error) {
  // a wrong command line is exit code 2
  if (!(error instanceof CommanderError)) throw error;
  if (['step', 'run', 'at', 'port'].includes(error.code)) process.stderr.write(`${error.message}\n`);
  process.exit(error.exitCode === 0 ? 0 : 2);
}
