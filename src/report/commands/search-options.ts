import { type Command, InvalidArgumentError, Option } from 'commander';
import { RULES, type Rule, type Season } from '../../scenarios/many/settings.ts';
import { fromZero, percent, stepMinutes, wholeNumber } from './option-values.ts';
import type { Asked } from './work.ts';

/** Limits as they are asked for on the command line. */
interface LimitOptions {
  mostUnserved?: number;
  mostStarts?: number;
  mostHours?: number;
  mostNightHours?: number;
  leastCharge?: number;
}

/**
 * Adds the commands that search: for settings of the generator, and for sizes.
 * @param catalogue where the catalogue of equipment is, if no other is asked for
 */
export function addSearchCommands(program: Command, start: (asked: Asked) => void, catalogue: string): void {
  const tune = program
    .command('tune')
    .description('the generator rules that cost least within limits, and how much it matters')
    .argument('<site>', 'site file, YAML or JSON')
    .option('--rules <list>', `only these: ${RULES.join(', ')}`, rules)
    .option(
      '--season <name=months>',
      "thresholds of its own, such as 'winter=11,12,1,2'; again for more",
      season,
      [],
    )
    .option('--runs <number>', 'most runs of the search; default: 80 for each setting', wholeNumber);
  searchOptions(tune).action((site, options) =>
    start({ command: 'tune', site, options: { ...options, limits: limitsOf(options) } }),
  );

  const size = program
    .command('size')
    .description(
      'generator, battery, inverters and arrays weighed against each other, from a catalogue with prices',
    )
    .argument('<site>', 'site file, YAML or JSON')
    .option('--generators <list>', 'ratings to look among [kW] instead of the catalogue’s', numbers)
    .option('--inverters <list>', 'ratings per unit [kVA]', numbers)
    .option('--modules <list>', 'battery modules', wholeNumbers)
    .option('--arrays <list>', 'all arrays together [kWp]', numbers)
    .option('--catalogue <file>', 'a catalogue of your own', catalogue);
  searchOptions(size).action((site, options) => {
    const { generators, inverters, modules, arrays } = options;
    const asked = { generatorKw: generators, inverterKva: inverters, modules, arrayKwp: arrays };
    start({ command: 'size', site, options: { ...options, asked, limits: limitsOf(options) } });
  });
}

/** What both have: whose sizes or settings, limits, step, workers, where the page goes. */
function searchOptions(command: Command): Command {
  return command
    .option('--alternative <name>', 'of this alternative instead of the site as filed')
    .option(
      '--most-unserved <kWh>',
      'limit, a year; default: as the site file says, else what it is today',
      fromZero,
    )
    .option('--most-starts <number>', 'limit, in a day', fromZero)
    .option('--most-hours <h>', 'limit on running, a year', fromZero)
    .option('--most-night-hours <h>', 'limit on running at night, a year', fromZero)
    .option('--least-charge <percent>', 'limit on the state of charge', percent)
    .addOption(new Option('--step <minutes>', 'another step than the site file has').argParser(stepMinutes))
    .option('--workers <number>', 'threads; default: as many as there are cores', wholeNumber)
    .option('--out <folder>', 'where the page goes', 'out')
    .option('--json', 'everything as JSON on standard output, no page');
}

function limitsOf({ mostUnserved, mostStarts, mostHours, mostNightHours, leastCharge }: LimitOptions) {
  const asked = {
    unservedKwh: mostUnserved,
    startsADay: mostStarts,
    runHours: mostHours,
    nightHours: mostNightHours,
    leastSoc: leastCharge,
  };
  return Object.fromEntries(Object.entries(asked).filter(([, value]) => value !== undefined));
}

function numbers(text: string): number[] {
  const values = text.split(',').map(Number);
  if (values.some((value) => !(value > 0) || !Number.isFinite(value)))
    throw new InvalidArgumentError('Expected numbers above 0 with commas between them: 10,20,30.');
  return values;
}

function wholeNumbers(text: string): number[] {
  const values = numbers(text);
  if (values.some((value) => !Number.isInteger(value)))
    throw new InvalidArgumentError('Expected whole numbers with commas between them: 12,16,24.');
  return values;
}

function rules(text: string): Rule[] {
  const names = text.split(',').map((name) => name.trim());
  const unknown = names.filter((name) => !(RULES as readonly string[]).includes(name));
  if (unknown.length > 0)
    throw new InvalidArgumentError(`No rule ${unknown.join(', ')}. Expected some of ${RULES.join(', ')}.`);
  return names as Rule[];
}

function season(text: string, before: Season[]): Season[] {
  const [name, list] = text.split('=').map((part) => part.trim());
  const months = (list ?? '').split(',').map(Number);
  const isMonth = (month: number) => Number.isInteger(month) && month >= 1 && month <= 12;
  if (!name || !list || !months.every(isMonth))
    throw new InvalidArgumentError('Expected a name and months 1 to 12: winter=11,12,1,2.');
  if (before.some((one) => one.name === name || one.months.some((month) => months.includes(month))))
    throw new InvalidArgumentError('Expected seasons with names and months of their own.');
  return [...before, { name, months }];
}
