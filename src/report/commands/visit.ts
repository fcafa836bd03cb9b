import { join } from 'node:path';
import type { Visit } from '../../scenarios/visit/visit.ts';
import { type VisitStage, visitSite } from '../../scenarios/visit/visit-site.ts';
import { visitPages } from '../visit/page.ts';
import { proposedChanges } from '../visit/retune-words.ts';
import { settingsSource } from '../visit/settings-source.ts';
import { visitTerminal } from '../visit/terminal.ts';
import { besideSite, printIssues, readSiteText, writeInPlace } from './files.ts';
import type { Terminal } from './work.ts';

export interface VisitOptions {
  out: string;
  /** yyyy-mm-dd, put on the sheet of settings */
  date: string;
  json?: boolean;
  /** false: new settings are not looked for */
  retune: boolean;
  /** runs of the search for settings */
  runs?: number;
}

const STAGES: Record<VisitStage, string> = {
  read: 'reading the site and its log',
  estimate: 'estimating what the plant is like',
  faults: 'looking for faults',
  compare: 'running the site as designed and as it is',
  retune: 'looking for settings',
  extend: 'trying the alternatives',
};

/** `darkweek visit SITE`: what the site's own log says of it, in the terminal and on two pages. */
export async function visitCommand(
  site: string,
  options: VisitOptions,
  version: string,
  terminal: Terminal,
): Promise<void> {
  const text = readSiteText(site);
  if (text === null) return;
  const readFile = besideSite(site);
  const write = (line: string) => {
    if (terminal.showsProgress) process.stderr.write(`\r\x1b[K${line}`);
  };
  const { visit, issues } = await visitSite({
    ...{ text, file: site, readFile, version, retunes: options.retune, mostRuns: options.runs },
    onProgress: (stage, doing) => write([STAGES[stage], doing].filter((part) => part !== '').join(': ')),
  });
  write('');
  printIssues(issues);
  if (visit === null) {
    process.exitCode = 1;
    return;
  }
  if (options.json) {
    process.stdout.write(`${JSON.stringify(visit, null, 2)}\n`);
    return;
  }
  const made = sheetOf(visit, { text, file: site, readFile, version }, options.date);
  process.stdout.write(`${visitTerminal(visit, terminal.columns)}\n`);
  for (const { file, html } of visitPages(visit, made)) {
    writeInPlace(join(options.out, file), html);
    process.stdout.write(`Page: ${join(options.out, file)}\n`);
  }
}

/** What the sheet of old and new settings is made from; null where nothing is to be changed. */
function sheetOf(
  visit: Visit,
  files: Pick<Parameters<typeof settingsSource>[0], 'text' | 'file' | 'readFile' | 'version'>,
  madeOn: string,
) {
  const changes = proposedChanges(visit.retune);
  if (changes.length === 0) return null;
  const { source, issues } = settingsSource({ ...files, calibration: visit.calibration, changes, madeOn });
  // doubts about the design are told already
  printIssues(issues.filter(({ severity }) => severity === 'error'));
  return source;
}
