import { join } from 'node:path';
import { setImmediate as otherWork } from 'node:timers/promises';
import pc from 'picocolors';
import { alternativesNamed, prepareYears } from '../../scenarios/many/many-study.ts';
import { costShown, type SensitivityRow, sensitivity } from '../../scenarios/many/sensitivity.ts';
import { figure } from '../numbers.ts';
import { sensitivityPage } from '../sensitivity/page.ts';
import { sensitivitySentences } from '../sensitivity/sentences.ts';
import { uncertainRange } from '../sensitivity/words.ts';
import { besideSite, printIssues, readSiteText, writeInPlace } from './files.ts';
import { sayTo } from './say.ts';
import type { Terminal } from './work.ts';

export interface SensitivityOptions {
  alternative?: string;
  against?: string;
  step?: number;
  out: string;
  json?: boolean;
}

/** `darkweek sensitivity SITE`: every uncertain value at both ends, sorted by what it does to the cost. */
export async function sensitivityCommand(
  site: string,
  options: SensitivityOptions,
  version: string,
  terminal: Terminal,
): Promise<void> {
  const text = readSiteText(site);
  const { prepared, issues } =
    text === null
      ? { prepared: null, issues: [] }
      : prepareYears({ text, file: site, readFile: besideSite(site), version, stepMin: options.step });
  const { alternative = 'as filed', against } = options;
  const names = against === undefined ? [alternative] : [alternative, against];
  const named = prepared ? alternativesNamed(names, prepared.alternatives, site) : null;
  printIssues([...issues, ...(named?.issues ?? [])]);
  if (!prepared || !named || named.issues.length > 0) {
    process.exitCode = 1;
    return;
  }
  const { facts, alternatives, maker } = prepared;
  const run = sensitivity(named.found, maker);
  let next = run.next();
  for (; !next.done; next = run.next()) {
    if (!terminal.showsProgress) continue;
    const { done, of, path } = next.value;
    process.stderr.write(`\r\x1b[K${done} of ${of} values: ${path}`);
    await otherWork();
  }
  if (terminal.showsProgress) process.stderr.write('\r\x1b[K');
  const result = next.value;
  if (options.json) {
    process.stdout.write(`${JSON.stringify(result, null, 2)}\n`);
    return;
  }
  const { currency } = facts.site;
  const say = sayTo(terminal.columns);
  say(`${facts.site.name}: which uncertain value matters?`, '', pc.bold);
  for (const row of result.rows) {
    const [low, high] = endTexts(row, currency);
    say(`${uncertainRange(row, currency).padEnd(66)} ${low.padStart(10)} to ${high.padStart(10)}`, '  ');
  }
  say(sensitivitySentences(result, currency).join(' '));
  const page = join(options.out, 'sensitivity.html');
  writeInPlace(page, sensitivityPage(facts, result, alternatives[0].site.uncertain !== null));
  process.stdout.write(`\nPage: ${page}\n`);
}

function endTexts({ atLow, atHigh }: SensitivityRow, currency: string): string[] {
  return [atLow, atHigh].map((figures) =>
    figure('money', costShown(figures), 0, currency).replaceAll('−', '-'),
  );
}
