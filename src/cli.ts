#!/usr/bin/env node
import { dirname, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Command, CommanderError } from 'commander';
import pkg from '../package.json' with { type: 'json' };
import { checkCommand } from './report/commands/check.ts';
import { simulateCommand } from './report/commands/simulate.ts';
import { siteJsonSchema } from './scenarios/site-schema.ts';

const HOME = resolve(dirname(fileURLToPath(import.meta.url)), '..');

const program = new Command('darkweek')
  .description('Simulates a stand-alone power system step by step and compares alternatives.')
  .version(pkg.version)
  .exitOverride()
  .showHelpAfterError('(darkweek --help lists the commands)');

program
  .command('simulate')
  .description('simulate a site and its alternatives; table, sentences and a report page')
  .argument('<site>', 'site file, YAML or JSON')
  .option('--only <alternative>', 'only this alternative beside the site as filed')
  .option('--step <minutes>', 'another step than the site file has', Number)
  .option('--out <folder>', 'where the report page goes', 'out')
  .option('--json', 'everything as JSON on standard output, no page')
  .option('--csv <file>', 'per-step columns of the last alternative simulated')
  .action((site, options) => simulateCommand(site, options, pkg.version));

program
  .command('check')
  .description('read a site file and all it names; list every problem and doubt; simulate nothing')
  .argument('<site>', 'site file, YAML or JSON')
  .option('--step <minutes>', 'another step than the site file has', Number)
  .action((site, options) => checkCommand(site, options, pkg.version));

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
  .action((options) => simulateCommand(resolve(HOME, 'profiles/sites/farm.yaml'), options, pkg.version));

process.on('SIGINT', () => {
  process.stderr.write('\nStopped. Nothing was written.\n');
  process.exit(130);
});

try {
  program.parse();
} catch (error) {
  // commander has said what is wrong; a wrong command line is exit code 2
  if (error instanceof CommanderError) process.exit(error.exitCode === 0 ? 0 : 2);
  throw error;
}
