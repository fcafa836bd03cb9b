#!/usr/bin/env node
import { dirname, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { Command, CommanderError, Option } from 'commander';
import pkg from '../package.json' with { type: 'json' };
import {
  collected,
  fromZero,
  localDate,
  localTime,
  plainNumber,
  portNumber,
  stepMinutes,
  today,
  wholeNumber,
} from './report/commands/option-values.ts';
import { addSearchCommands } from './report/commands/search-options.ts';
import { addWorkerCommand, spreadOptions } from './report/commands/spread-options.ts';
import type { Asked, Job } from './report/commands/work.ts';
import { BREAK_EVEN_VALUES } from './scenarios/many/break-even-values.ts';
import { READERS } from './scenarios/readers.ts';
import { siteJsonSchema } from './scenarios/site-schema.ts';

const HERE = dirname(fileURLToPath(import.meta.url));
const FARM = resolve(HERE, '../profiles/sites/farm.yaml');
const CATALOGUE = resolve(HERE, '../profiles/equipment/catalogue.yaml');

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
  .option('--step <minutes>', 'another step than the site file has', stepMinutes)
  .option('--out <folder>', 'where the report page goes', 'out')
  .option('--json', 'everything as JSON on standard output, no page')
  .option('--csv <file>', 'per-step columns of the last alternative simulated')
  .option('--bound', 'on the page too: the least fuel that any thresholds could burn')
  .action((site, options) => start({ command: 'simulate', site, options }));

program
  .command('why')
  .description('why the generator started, and what would have avoided it, by running the site again')
  .argument('<site>', 'site file, YAML or JSON')
  .option('--alternative <name>', 'of this alternative instead of the site as filed')
  .addOption(new Option('--run <number>', 'only this run, from 1').argParser(wholeNumber).conflicts('at'))
  .addOption(
    new Option('--at <time>', 'only the run at or nearest to this local time: 2025-01-12T18:00').argParser(
      localTime,
    ),
  )
  .option('--step <minutes>', 'another step than the site file has', stepMinutes)
  .action((site, options) => start({ command: 'why', site, options }));

program
  .command('bound')
  .description(
    'the least fuel that any thresholds could burn with this plant, weather and load, and where the rest goes',
  )
  .argument('<site>', 'site file, YAML or JSON')
  .option('--alternative <name>', 'of this alternative instead of all')
  .option('--step <minutes>', 'another step than the site file has', stepMinutes)
  .action((site, options) => start({ command: 'bound', site, options }));

program
  .command('horizon')
  .description(
    'simulate every year of the study one after the other: fading battery, growing load, weather in turn',
  )
  .argument('<site>', 'site file, YAML or JSON, with a period of 365 days')
  .option('--only <alternative>', 'only this alternative beside the site as filed')
  .option('--step <minutes>', 'another step than the site file has', stepMinutes)
  .option('--out <folder>', 'where the page goes', 'out')
  .option('--json', 'every year as JSON on standard output, no page')
  .action((site, options) => start({ command: 'horizon', site, options }));

addSearchCommands(program, start, CATALOGUE);

const sweep = program
  .command('sweep')
  .description('simulate many variants of a site over its numbers; maps, and a table as CSV, JSON and Arrow')
  .argument('<site>', 'site file, YAML or JSON')
  .option(
    '--vary <values>',
    "what is varied, once or more: 'generator.ratedKw=10:30:2.5' (from:to:step), 'battery.modules=12,24', " +
      "'alternative=as filed,24 modules'",
    collected,
    [],
  )
  .option('--price <price>', "what one more costs at the start: 'battery.modules=1600'", collected, [])
  .option('--sample <number>', 'only so many variants, spread evenly over all', wholeNumber)
  .option('--seed <word>', 'another sample', 'sweep')
  .option('--unserved <kWh>', 'most that may go unserved in the best (default: as filed)', fromZero)
  .option('--workers <number>', 'threads (default: one each core)', wholeNumber)
  .option('--step <minutes>', 'another step than the site file has', stepMinutes)
  .option('--out <folder>', 'where page, tables and what is kept go', 'out');
spreadOptions(sweep).action((site, options) => start({ command: 'sweep', site, options }));

program
  .command('break-even')
  .description('the fuel price, load growth and the like at which two alternatives cost the same')
  .argument('<site>', 'site file, YAML or JSON, with a period of 365 days')
  .argument('<first>', "name of an alternative, or 'as filed'")
  .argument('<second>', 'name of the other')
  .addOption(new Option('--value <value>', 'only for this value').choices(BREAK_EVEN_VALUES))
  .option('--from <number>', 'with --value: from here', plainNumber)
  .option('--to <number>', 'with --value: to here', plainNumber)
  .option('--step <minutes>', 'another step than the site file has', stepMinutes)
  .option('--out <folder>', 'where the page goes', 'out')
  .option('--json', 'everything as JSON on standard output, no page')
  .action((site, first, second, options) =>
    start({ command: 'break-even', site, names: [first, second], options }),
  );

program
  .command('sensitivity')
  .description('every uncertain value at its lowest and highest: which moves the cost, which turns a choice')
  .argument('<site>', 'site file, YAML or JSON, with a period of 365 days')
  .option('--alternative <name>', 'of this alternative instead of the site as filed')
  .option('--against <name>', 'of what this one costs more or less')
  .option('--step <minutes>', 'another step than the site file has', stepMinutes)
  .option('--out <folder>', 'where the page goes', 'out')
  .option('--json', 'everything as JSON on standard output, no page')
  .action((site, options) => start({ command: 'sensitivity', site, options }));

const stress = program
  .command('stress')
  .description(
    'many years at once: weather, load, ageing, failing starts, late fuel; bands and the worst year',
  )
  .argument('<site>', 'site file, YAML or JSON, with a period of 365 days')
  .option('--only <alternative>', "only this alternative beside the site as filed; 'as filed': only that")
  .option('--runs <number>', 'another number of runs of all years than the site file has', wholeNumber)
  .option('--seed <text>', 'another seed than the site file has')
  .option('--step <minutes>', 'another step than the site file has', stepMinutes)
  .option('--workers <number>', 'threads (default: one each core)', wholeNumber)
  .option('--out <folder>', 'where the page and the finished runs go', 'out')
  .option('--json', 'everything as JSON on standard output, no page');
spreadOptions(stress).action((site, options) => start({ command: 'stress', site, options }));

addWorkerCommand(program, start);

program
  .command('check')
  .description('read a site file and all it names; list every problem and doubt; simulate nothing')
  .argument('<site>', 'site file, YAML or JSON')
  .option('--step <minutes>', 'another step than the site file has', stepMinutes)
  .action((site, options) => start({ command: 'check', site, options }));

program
  .command('log')
  .description("read the site's own log that its file names; data sheet, every doubt, and a page of pictures")
  .argument('<site>', 'site file, YAML or JSON, with a group `log`')
  .option('--out <folder>', 'where the page goes', 'out')
  .option('--json', 'data sheet and doubts as JSON on standard output, no page')
  .action((site, options) => start({ command: 'log', site, options }));

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
  .command('folder')
  .description(
    "a folder to hand over: owner's report, commissioning sheet, spreadsheet, data sheets, site file",
  )
  .argument('<site>', 'site file, YAML or JSON')
  .option('--out <folder>', 'where the folder goes', 'out')
  .option('--proposed <alternative>', 'what is handed over, instead of the site as filed')
  .option('--locale <locale>', "language and numbers of the owner's report: en-GB, de-AT")
  .option('--date <date>', 'the date on everything: 2026-01-31; default: today', localDate)
  .option('--step <minutes>', 'another step than the site file has', stepMinutes)
  .option('--no-pdf', 'pages only, even where Chromium is installed')
  .action((site, options) =>
    start({ command: 'folder', site, options: { ...options, date: options.date ?? today() } }),
  );

program
  .command('visit')
  .description(
    "what the site's own log says: as it ran against as designed, causes, estimates, likely faults, new settings",
  )
  .argument('<site>', 'site file, YAML or JSON, with a group `log`')
  .option('--no-retune', 'do not look for new settings, which takes longest')
  .option('--runs <number>', 'runs of the search for settings (default: 240)', wholeNumber)
  .option('--date <date>', 'the date on the sheet of settings: 2026-01-31; default: today', localDate)
  .option('--out <folder>', 'where the pages go', 'out')
  .option('--json', 'everything as JSON on standard output, no page')
  .action((site, options) =>
    start({ command: 'visit', site, options: { ...options, date: options.date ?? today() } }),
  );

const sites = program
  .command('sites')
  .description(
    'visit every site of a folder by its own log: who burns more than promised, who runs dry, whose battery fades',
  )
  .argument('<folder>', 'folder with site files, each with a group `log`')
  .option('--retune', 'look for new settings for each too, which takes longest')
  .option('--workers <number>', 'threads (default: one each core)', wholeNumber)
  .option('--out <folder>', 'where the list, the pages of each site and finished visits go', 'out')
  .option('--json', 'everything as JSON on standard output, no page');
spreadOptions(sites).action((folder, options) => start({ command: 'sites', folder, options }));

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

/** What there is of a command's work when it is stopped. */
const KEPT_WHEN_STOPPED: Partial<Record<Asked['command'], string>> = {
  horizon: ' Alternatives that were finished are on the page.',
  sweep: ' Variants that were finished are kept: the same command goes on from there.',
  stress: ' Runs that were finished are kept, and the same command goes on from them.',
  sites: ' Visits that were finished are kept, and the same command goes on from them.',
  worker: ' What was under way goes to another worker.',
};

/** Starts a command's work on its own thread, and stops at once on Ctrl-C. */
function start(asked: Asked): void {
  const terminal = { columns: process.stdout.columns ?? 100, showsProgress: process.stderr.isTTY === true };
  const job = { ...asked, version: pkg.version, terminal } as Job;
  // a pipe gets no colours, on a build machine either, unless it asks for them
  const coloured = process.stdout.hasColors?.() || process.env.FORCE_COLOR;
  const worker = new Worker(resolve(HERE, 'work.js'), {
    workerData: job,
    env: { ...process.env, ...(coloured ? { FORCE_COLOR: '1' } : { NO_COLOR: '1' }) },
  });
  worker.on('error', (error) => {
    throw error;
  });
  worker.on('exit', (code) => {
    process.exitCode = code;
  });
  process.on('SIGINT', () => {
    process.stderr.write(`\nStopped. Nothing was written half.${KEPT_WHEN_STOPPED[asked.command] ?? ''}\n`);
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
  process.exit(error.exitCode === 0 ? 0 : 2);
}
