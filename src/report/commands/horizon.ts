import { join } from 'node:path';
import { setImmediate as otherWork } from 'node:timers/promises';
import type { HorizonStudy } from '../../scenarios/horizon-result.ts';
import { type HorizonProgress, runHorizon } from '../../scenarios/horizon-study.ts';
import { horizonPage } from '../horizon/page.ts';
import { terminalComparison, terminalYears } from '../horizon/terminal.ts';
import { besideSite, printIssues, readSiteText, writeInPlace } from './files.ts';
import type { Terminal } from './work.ts';

export interface HorizonOptions {
  only?: string;
  step?: number;
  out: string;
  json?: boolean;
}

/**
 * `darkweek horizon SITE`: every year of the study one after the other. Each alternative is printed and put on the
 * page as soon as it is finished, so that stopping loses only the one under way.
 */
export async function horizonCommand(
  site: string,
  options: HorizonOptions,
  version: string,
  terminal: Terminal,
): Promise<void> {
  const text = readSiteText(site);
  if (text === null) return;
  const { only, step: stepMin } = options;
  const run = runHorizon({ text, file: site, readFile: besideSite(site), version, only, stepMin });
  let next = run.next();
  for (; !next.done; next = run.next()) {
    if (terminal.showsProgress) process.stderr.write(progressLine(next.value));
    if (next.value.study && !options.json) showFinished(next.value.study, options.out, terminal.columns);
    // what was written leaves this thread only while nothing is computed
    await otherWork();
  }
  const { study, issues } = next.value;
  printIssues(issues);
  if (study === null) {
    process.exitCode = 1;
    return;
  }
  if (options.json) process.stdout.write(`${JSON.stringify(study, null, 2)}\n`);
  else
    process.stdout.write(
      `${terminalComparison(study, terminal.columns)}\nPage of the years: ${pagePath(options.out)}\n`,
    );
}

function showFinished(study: HorizonStudy, folder: string, width: number): void {
  const finished = study.alternatives[study.alternatives.length - 1];
  // what has been printed is on the page too, whenever it is stopped
  writeInPlace(pagePath(folder), horizonPage(study));
  process.stdout.write(`${terminalYears(study, finished, width)}\n`);
}

function pagePath(folder: string): string {
  return join(folder, 'horizon.html');
}

/** One line on a terminal, written over year by year. */
function progressLine({ name, year, years, study }: HorizonProgress): string {
  return study ? '\r\x1b[K' : `\r\x1b[K${name}: year ${year} of ${years}`;
}
