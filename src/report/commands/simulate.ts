import { join } from 'node:path';
import { withBounds } from '../../scenarios/bound/fuel-bound.ts';
import { runStudy } from '../../scenarios/run-study.ts';
import type { Study } from '../../scenarios/study.ts';
import { withStories } from '../../scenarios/study-stories.ts';
import { columnsCsv } from '../columns-csv.ts';
import { studyJson } from '../json.ts';
import { reportPage } from '../page.ts';
import { terminalReport } from '../terminal.ts';
import { besideSite, printIssues, readSiteText, writeInPlace } from './files.ts';
import type { Terminal } from './work.ts';

export interface SimulateOptions {
  only?: string;
  step?: number;
  out: string;
  json?: boolean;
  csv?: string;
  bound?: boolean;
}

/** `darkweek simulate SITE`: the table and the sentences in the terminal, the report page in a folder. */
export async function simulateCommand(
  site: string,
  options: SimulateOptions,
  version: string,
  terminal: Terminal,
): Promise<void> {
  const text = readSiteText(site);
  if (text === null) return;
  const {
    study: plain,
    again,
    issues,
  } = runStudy({
    text,
    file: site,
    readFile: besideSite(site),
    version,
    only: options.only,
    stepMin: options.step,
    onProgress: terminal.showsProgress ? showProgress : undefined,
  });
  printIssues(issues);
  if (plain === null || again === null) {
    process.exitCode = 1;
    return;
  }
  const told = withStories(plain, again);
  const study = options.bound ? await withBounds(told) : told;
  if (options.csv)
    writeInPlace(options.csv, columnsCsv(study.alternatives[study.alternatives.length - 1], study));
  if (options.json) process.stdout.write(`${JSON.stringify(studyJson(study), null, 2)}\n`);
  else showStudy(study, options.out, terminal.columns);
}

function showStudy(study: Study, folder: string, width: number): void {
  process.stdout.write(`${terminalReport(study, width)}\n`);
  const page = join(folder, 'report.html');
  writeInPlace(page, reportPage(study));
  process.stdout.write(`\nReport page: ${page}\n`);
}

/** One line on a terminal, written over as alternatives are done. */
function showProgress(done: number, of: number, name: string): void {
  process.stderr.write(`\r\x1b[Ksimulated ${done} of ${of}: ${name}${done === of ? '\r\x1b[K' : ''}`);
}
