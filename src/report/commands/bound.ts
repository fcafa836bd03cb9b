import pc from 'picocolors';
import { withBounds } from '../../scenarios/bound/fuel-bound.ts';
import { runStudy } from '../../scenarios/run-study.ts';
import { BOUND_NOTE, boundSentences, foresightTitle, foresightWeek } from '../bound-words.ts';
import { keepUnits } from '../numbers.ts';
import { makeView } from '../view.ts';
import { quoted } from '../words.ts';
import { wrapped } from '../wrap.ts';
import { besideSite, printIssues, readSiteText } from './files.ts';
import type { Terminal } from './work.ts';

export interface BoundOptions {
  alternative?: string;
  step?: number;
}

/** `darkweek bound SITE`: the least fuel that any thresholds could burn, for each alternative or for one. */
export async function boundCommand(
  site: string,
  options: BoundOptions,
  version: string,
  terminal: Terminal,
): Promise<void> {
  const text = readSiteText(site);
  if (text === null) return;
  const { alternative: only, step: stepMin } = options;
  const { study: plain, issues } = runStudy({
    ...{ text, file: site, readFile: besideSite(site), version },
    ...{ only, stepMin },
  });
  printIssues(issues.filter(({ severity }) => severity === 'error'));
  if (plain === null) {
    process.exitCode = 1;
    return;
  }
  const asked = plain.alternatives.filter(({ name }) => only === undefined || name === only);
  const study = await withBounds({ ...plain, alternatives: asked });
  const view = makeView(study);
  const say = (text: string, indent: string, look = (line: string) => line) => {
    for (const line of wrapped(keepUnits(text), terminal.columns - indent.length))
      process.stdout.write(`${indent}${look(line.replaceAll('\u00a0', ' '))}\n`);
  };
  say(`${study.site.name}: how good could it be?`, '', pc.bold);
  for (const result of study.alternatives) {
    process.stdout.write('\n');
    say(quoted(result.name), '', pc.bold);
    if (!result.bound) {
      say('There is no generator in this alternative.', '  ');
      continue;
    }
    say(boundSentences(result, result.bound).join(' '), '  ');
    say(`${foresightTitle(view, result, foresightWeek(result, result.bound))}.`, '  ');
  }
  process.stdout.write('\n');
  say(BOUND_NOTE, '', pc.dim);
}
