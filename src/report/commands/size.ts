import { readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { type Catalogue, readCatalogue } from '../../scenarios/many/catalogue.ts';
import { chooseSite } from '../../scenarios/many/chosen-site.ts';
import type { AskedLimits } from '../../scenarios/many/limits.ts';
import { findSizes, sizeResultOf } from '../../scenarios/many/size.ts';
import { type AskedSizes, allSizes, sizeLists } from '../../scenarios/many/sizes.ts';
import { sizePage } from '../size/page.ts';
import { terminalSize } from '../size/terminal.ts';
import { showDoing } from './doing.ts';
import { besideSite, printIssues, readSiteText, writeInPlace } from './files.ts';
import type { Terminal } from './work.ts';
import { withWorkers } from './workers.ts';

export interface SizeOptions {
  alternative?: string;
  step?: number;
  catalogue: string;
  asked: AskedSizes;
  limits: AskedLimits;
  workers?: number;
  out: string;
  json?: boolean;
}

/** More than this take too long to be meant. */
const MOST_CHOICES = 50_000;

/** `darkweek size SITE`: sizes weighed against each other; sentences in the terminal, the frontiers on a page. */
export async function sizeCommand(
  site: string,
  options: SizeOptions,
  version: string,
  terminal: Terminal,
): Promise<void> {
  const text = readSiteText(site);
  const catalogue = catalogueAt(options.catalogue);
  if (text === null || catalogue === null) {
    process.exitCode = 1;
    return;
  }
  const readFile = besideSite(site);
  const { alternative, step: stepMin, asked, limits } = options;
  const { chosen, issues } = chooseSite({ text, file: site, readFile, version, alternative, stepMin });
  printIssues(issues);
  if (chosen === null) {
    process.exitCode = 1;
    return;
  }
  const choices = allSizes(sizeLists(chosen.site, catalogue, asked)).length;
  if (choices > MOST_CHOICES) {
    process.stderr.write(
      `${options.catalogue}: found ${choices} choices of sizes; expected at most ${MOST_CHOICES}: name fewer with --generators, --inverters, --modules or --arrays\n`,
    );
    process.exitCode = 1;
    return;
  }
  const doing = showDoing(terminal);
  const found = await withWorkers({ text, file: site, readFile, stepMin }, options.workers, (evaluate) =>
    findSizes({
      ...{ site: chosen.site, base: chosen.base, evaluate, stepMin: chosen.stepMin },
      ...{ catalogue, asked, limits, onProgress: doing.show },
    }),
  );
  doing.end();
  const result = sizeResultOf(chosen, found, basename(options.catalogue), catalogue);
  if (options.json) {
    process.stdout.write(`${JSON.stringify(result, null, 2)}\n`);
    return;
  }
  const page = join(options.out, 'size.html');
  writeInPlace(page, sizePage(result));
  process.stdout.write(`${terminalSize(result, terminal.columns)}\nPage with the drawings: ${page}\n`);
}

/** Null, with every problem on standard error, where it cannot be used. */
function catalogueAt(file: string): Catalogue | null {
  let yaml: string;
  try {
    yaml = readFileSync(file, 'utf8');
  } catch {
    process.stderr.write(`${file}: no such file; expected a catalogue of equipment (YAML or JSON)\n`);
    return null;
  }
  const { catalogue, issues } = readCatalogue(yaml, file);
  printIssues(issues);
  return catalogue;
}
