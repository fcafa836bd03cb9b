import { join } from 'node:path';
import { chooseSite } from '../../scenarios/many/chosen-site.ts';
import type { AskedLimits } from '../../scenarios/many/limits.ts';
import type { Rule, Season } from '../../scenarios/many/settings.ts';
import { tune, usualRuns } from '../../scenarios/many/tune.ts';
import type { TuneResult } from '../../scenarios/many/tune-result.ts';
import { tunePage } from '../tune/page.ts';
import { terminalTune } from '../tune/terminal.ts';
import { showDoing } from './doing.ts';
import { besideSite, printIssues, readSiteText, writeInPlace } from './files.ts';
import type { Terminal } from './work.ts';
import { withWorkers } from './workers.ts';

export interface TuneOptions {
  alternative?: string;
  step?: number;
  rules?: Rule[];
  season: Season[];
  limits: AskedLimits;
  runs?: number;
  workers?: number;
  out: string;
  json?: boolean;
}

/** `darkweek tune SITE`: generator rules that cost least within limits; settings and sentences in the terminal, a page. */
export async function tuneCommand(
  site: string,
  options: TuneOptions,
  version: string,
  terminal: Terminal,
): Promise<void> {
  const text = readSiteText(site);
  if (text === null) return;
  const readFile = besideSite(site);
  const { alternative, step: stepMin } = options;
  const { chosen, issues } = chooseSite({ text, file: site, readFile, version, alternative, stepMin });
  printIssues(issues);
  if (chosen === null) {
    process.exitCode = 1;
    return;
  }
  const doing = showDoing(terminal);
  const found = await withWorkers({ text, file: site, readFile, stepMin }, options.workers, (evaluate) =>
    tune({
      ...{ site: chosen.site, base: chosen.base, evaluate, stepMin: chosen.stepMin },
      ...{ rules: options.rules ?? null, seasons: options.season, limits: options.limits },
      mostRuns: options.runs ?? usualRuns(options.rules ?? null, options.season),
      onProgress: doing.show,
    }),
  );
  doing.end();
  if (found === null) {
    process.stderr.write(
      `${site}: no rule starts the generator by a number; expected control.charge or control.peak\n`,
    );
    process.exitCode = 1;
    return;
  }
  const { heading, doubts, made } = chosen;
  const result: TuneResult = { site: heading, alternative: chosen.alternative, ...found, doubts, made };
  if (options.json) {
    process.stdout.write(`${JSON.stringify(result, null, 2)}\n`);
    return;
  }
  const page = join(options.out, 'tune.html');
  writeInPlace(page, tunePage(result));
  process.stdout.write(`${terminalTune(result, terminal.columns)}\nPage of the settings: ${page}\n`);
}
