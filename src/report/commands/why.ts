import pc from 'picocolors';
import { findRun } from '../../scenarios/find-run.ts';
import { Rerunner } from '../../scenarios/rerun.ts';
import { runStudy } from '../../scenarios/run-study.ts';
import { type StartStory, startStories, startStory } from '../../scenarios/why-start.ts';
import { keepUnits } from '../numbers.ts';
import { makeView } from '../view.ts';
import { startWords } from '../why-start.ts';
import { REMEDY_NOTE } from '../why-start-remedies.ts';
import { quoted } from '../words.ts';
import { wrapped } from '../wrap.ts';
import { besideSite, printIssues, readSiteText } from './files.ts';
import type { Terminal } from './work.ts';

export interface WhyOptions {
  alternative?: string;
  /** number of the run, from 1 */
  run?: number;
  /** local time such as 2025-01-12T18:00 */
  at?: string;
  step?: number;
}

/** `darkweek why SITE`: why runs of the generator started, and what would have avoided them. */
export function whyCommand(site: string, options: WhyOptions, version: string, terminal: Terminal): void {
  const text = readSiteText(site);
  if (text === null) return;
  const { alternative: only, step: stepMin } = options;
  const { study, again, issues } = runStudy({
    ...{ text, file: site, readFile: besideSite(site), version },
    ...{ only, stepMin },
  });
  printIssues(issues.filter(({ severity }) => severity === 'error'));
  if (study === null || again === null) {
    process.exitCode = 1;
    return;
  }
  const view = makeView(study);
  const index = study.alternatives.length - 1;
  const place = only === undefined ? 0 : index;
  const result = study.alternatives[place];
  const rerunner = new Rerunner(again.alternatives[place].site, result, again.maker);
  const asked = findRun(result.ledger.runs, view.clock, study.axis.startS, options);
  if (typeof asked === 'string') {
    process.stderr.write(`${asked}\n`);
    process.exitCode = 1;
    return;
  }
  const stories: StartStory[] =
    asked === null ? startStories(rerunner) : [startStory(rerunner, asked, ['asked'])];
  const width = terminal.columns;
  const say = (text: string, indent: string, look = (line: string) => line) => {
    for (const line of wrapped(keepUnits(text), width - indent.length))
      process.stdout.write(`${indent}${look(line.replaceAll('\u00a0', ' '))}\n`);
  };
  say(`${study.site.name}, ${quoted(result.name)}: why did the generator start?`, '', pc.bold);
  if (stories.length === 0) say('It never starts.', '');
  for (const story of stories) {
    const { heading, why, remedies } = startWords(view, result, story);
    process.stdout.write('\n');
    say(heading, '', pc.bold);
    say(why.join(' '), '  ');
    for (const remedy of remedies) say(remedy, '  ');
  }
  if (stories.length === 0) return;
  process.stdout.write('\n');
  say(REMEDY_NOTE, '', pc.dim);
}
