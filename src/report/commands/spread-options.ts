import { type Command, InvalidArgumentError, Option } from 'commander';
import { readPart, type WorkPart } from '../../scenarios/many/work-part.ts';
import { wholeNumber } from './option-values.ts';
import type { Asked } from './work.ts';

/** How a command's runs are spread over several machines; at most one of them is set. */
export interface SpreadOptions {
  /** only this part, kept in a file of its own */
  shard?: WorkPart;
  /** folders with the files of all parts */
  merge?: string[];
  /** address of a Redis at which others work too */
  queue?: string;
}

/** The options of commands whose runs may be spread. */
export function spreadOptions(command: Command): Command {
  return command
    .addOption(
      new Option('--shard <part/parts>', 'only this part, 3/16, kept in a file of its own for --merge')
        .argParser(workPart)
        .conflicts(['merge', 'queue']),
    )
    .addOption(
      new Option('--merge <folders...>', 'run nothing: put together what all parts left there').conflicts([
        'queue',
      ]),
    )
    .addOption(
      new Option('--queue <address>', 'have the runs done by darkweek workers at a Redis')
        .argParser(address)
        .conflicts(['workers']),
    );
}

export function addWorkerCommand(program: Command, start: (asked: Asked) => void): void {
  program
    .command('worker')
    .description('do runs of sweeps and stresses that were put on a queue, on any machine, until stopped')
    .requiredOption('--queue <address>', 'the Redis that holds the queue: redis://host:6379', address)
    .option('--workers <number>', 'runs at a time (default: one each core)', wholeNumber)
    .option(
      '--lock <seconds>',
      'after so long without a sign of life its runs go to another worker',
      lockSeconds,
      30,
    )
    .action((options) => start({ command: 'worker', options }));
}

function workPart(text: string): WorkPart {
  const read = readPart(text);
  if (read === null) throw new InvalidArgumentError('Expected a part and how many there are: 3/16.');
  return read;
}

function address(text: string): string {
  const isAddress = /^rediss?:\/\/[^/\s]+/.test(text) && URL.canParse(text);
  if (!isAddress) throw new InvalidArgumentError('Expected an address such as redis://host:6379.');
  return text;
}

/** Below 2 s a busy machine would be taken for a dead one. */
function lockSeconds(text: string): number {
  const seconds = Number(text);
  if (!(seconds >= 2 && seconds <= 3600)) throw new InvalidArgumentError('Expected seconds from 2 to 3600.');
  return seconds;
}
