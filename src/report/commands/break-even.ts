import { join } from 'node:path';
import { setImmediate as otherWork } from 'node:timers/promises';
import pc from 'picocolors';
import { breakEven } from '../../scenarios/many/break-even.ts';
import { type BreakEvenKey, VALUE_LIMITS } from '../../scenarios/many/break-even-values.ts';
import { alternativesNamed, prepareYears } from '../../scenarios/many/many-study.ts';
import { breakEvenPage } from '../break-even/page.ts';
import { valueSentence, verdict } from '../break-even/sentences.ts';
import { VALUE_NAMES } from '../break-even/words.ts';
import { besideSite, printIssues, readSiteText, writeInPlace } from './files.ts';
import { sayTo } from './say.ts';
import type { Terminal } from './work.ts';

export interface BreakEvenOptions {
  value?: BreakEvenKey;
  from?: number;
  to?: number;
  step?: number;
  out: string;
  json?: boolean;
}

/** `darkweek break-even SITE A B`: the values at which two alternatives cost the same. */
export async function breakEvenCommand(
  site: string,
  names: readonly [string, string],
  options: BreakEvenOptions,
  version: string,
  terminal: Terminal,
): Promise<void> {
  const text = readSiteText(site);
  const { prepared, issues } =
    text === null
      ? { prepared: null, issues: [] }
      : prepareYears({ text, file: site, readFile: besideSite(site), version, stepMin: options.step });
  const named = prepared ? alternativesNamed(names, prepared.alternatives, site) : null;
  printIssues([...issues, ...(named?.issues ?? [])]);
  const wrong = wrongRange(options);
  if (wrong) process.stderr.write(`${wrong}\n`);
  if (!prepared || !named || named.issues.length > 0 || wrong) {
    process.exitCode = 1;
    return;
  }
  const { value: key, from, to } = options;
  const [a, b] = named.found;
  const run = breakEven([a, b], prepared.maker, key ? [{ key, from, to }] : undefined);
  let next = run.next();
  for (; !next.done; next = run.next()) {
    if (!terminal.showsProgress || next.value.key !== 'loadGrowth') continue;
    process.stderr.write(`\r\x1b[K${VALUE_NAMES[next.value.key]}: ${next.value.tried} values tried`);
    await otherWork();
  }
  if (terminal.showsProgress) process.stderr.write('\r\x1b[K');
  const result = next.value;
  const { facts } = prepared;
  if (options.json) {
    process.stdout.write(`${JSON.stringify(result, null, 2)}\n`);
    return;
  }
  const say = sayTo(terminal.columns);
  const { currency, name } = facts.site;
  say(`${name}: when does “${b.name}” cost less than “${a.name}”?`, '', pc.bold);
  say(verdict(result, currency).join(' '));
  for (const value of result.values) say(valueSentence(value, result, currency), '  ');
  const page = join(options.out, 'break-even.html');
  writeInPlace(page, breakEvenPage(facts, result));
  process.stdout.write(`\nPage: ${page}\n`);
}

/** What is wrong about a range that was asked for; null where nothing is. */
function wrongRange({ value, from, to }: BreakEvenOptions): string | null {
  if (from === undefined && to === undefined) return null;
  if (value === undefined) return '--from and --to: expected --value too';
  const [least, most] = VALUE_LIMITS[value];
  for (const end of [from, to])
    if (end !== undefined && !(end >= least && end <= most))
      return `--from, --to ${end}: expected ${least} to ${most} for ${value}`;
  if (from !== undefined && to !== undefined && from >= to)
    return `--from ${from}: expected less than --to ${to}`;
  if (value === 'studyYears' && [from, to].some((end) => end !== undefined && !Number.isInteger(end)))
    return '--from, --to: expected whole years';
  return null;
}
