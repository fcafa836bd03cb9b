import type { Issue } from '../../../scenarios/issue.ts';
import { replayWorst } from '../../../scenarios/many/stress-replay.ts';
import type { StressRun } from '../../../scenarios/many/stress-result.ts';
import { planStress, runStress, type StressPlan } from '../../../scenarios/many/stress-study.ts';
import { makePaper } from '../../charts/paper.ts';
import { html } from '../../html.ts';
import { digits } from '../../numbers.ts';
import { scrollable } from '../../page/figure-box.ts';
import { alternativePart, bandTable, basis } from '../../stress/parts.ts';
import { stressSentences } from '../../stress/sentences.ts';
import { capital, counted } from '../../words.ts';
import type { ShownStudy, StressAsked } from '../study-messages.ts';
import { makeProgress, type StudyGround } from './study-ground.ts';

/** Finished runs by seed, step, alternative and number: each is drawn by itself, whatever else was asked for. */
export type KeptRuns = Map<string, StressRun>;

/** All years many times, under drawn weather, load and faults; one alternative after the other, in this worker. */
export async function shownStress(
  asked: StressAsked,
  ground: StudyGround,
  kept: KeptRuns,
): Promise<{ shown: Omit<ShownStudy, 'key'> } | { issues: Issue[] }> {
  const { text, file, readFile } = ground;
  const { plan, issues } = planStress({ ...asked, text, file, readFile, version: '' });
  if (plan === null) return { issues };
  await runAll(plan, ground, kept);
  const stopped = leaveUnfinished(plan);
  const { study } = plan;
  const of = `${counted(digits(study.terms.runs), 'run')} of ${counted(digits(study.terms.years), 'year')}, in steps of ${study.stepMin} min.`;
  const none = { kind: 'stress' as const, of, heads: [], choices: [], listed: [], care: [] };
  if (study.alternatives.length === 0)
    return {
      shown: { ...none, sentences: [], parts: [], basis: '', stopped: 'Stopped before a run was finished.' },
    };
  const paper = makePaper();
  const worst = study.alternatives.map((_, i) => replayWorst(plan, i));
  const table = scrollable('Bands of the alternatives', bandTable(study));
  const parts = [
    { html: html`<p class="note">${BANDS}</p>${table}`.html, cells: [] },
    ...study.alternatives.map((one, i) => ({
      html: alternativePart(study, one, worst[i], i, paper).html,
      ...{ cells: [], fold: `${capital(one.name)}: months, years and the worst week` },
    })),
  ];
  return {
    shown: {
      ...none,
      sentences: study.alternatives.map(
        (one) => `${capital(one.name)}: ${stressSentences(study, one).join(' ')}`,
      ),
      ...{ parts, basis: basis(study).html, stopped },
    },
  };
}

const BANDS =
  'In each cell: below the upper figure lie 10 % of the years, below the middle one half of them, below the lower one 90 %; for the life-cycle cost, of the runs.';

/** Run by run, so that a wish to stop is heard between two of them. */
async function runAll(plan: StressPlan, { stop, tell }: StudyGround, kept: KeptRuns): Promise<void> {
  const { terms, stepMin, site } = plan.study;
  const key = (name: string, run: number) => {
    const one = plan.alternatives.find((alternative) => alternative.name === name);
    return JSON.stringify([terms.seed, stepMin, site.name, one?.changes, one?.capital, run]);
  };
  const progress = makeProgress(tell);
  progress.say('runs of all years');
  const of = terms.runs * plan.alternatives.length;
  let seen = 0;
  progress.at(0, of, 0);
  await soon();
  for (const { name, done, fresh } of runStress(plan, (name, run) => kept.get(key(name, run)) ?? null)) {
    seen++;
    if (fresh) kept.set(key(name, done), fresh);
    progress.at(seen, of, seen);
    if (fresh) await soon();
    if (stop.aborted) return;
  }
}

/**
 * Alternatives with all their runs are shown; where there is none yet, what is there of the first. Only so do all that
 * stand side by side meet the same years.
 * @returns what is missing, in words
 */
function leaveUnfinished({ study, alternatives }: StressPlan): string {
  const wanted = alternatives.length;
  const { runs } = study.terms;
  const whole = study.alternatives.filter((one) => one.runs.length === runs);
  if (whole.length === wanted) return '';
  const [first] = study.alternatives;
  if (whole.length === 0 && first && first.runs.length > 0) {
    study.terms = { ...study.terms, runs: first.runs.length };
    study.alternatives = [first];
    return `Stopped: ${digits(first.runs.length)} of ${digits(runs)} runs of “${first.name}” are there, and none of the other alternatives. The same question goes on from here.`;
  }
  study.alternatives = whole;
  return `Stopped: ${digits(whole.length)} of ${counted(digits(wanted), 'alternative')} are finished and shown. The same question goes on from here.`;
}

/** Lets messages in that are waiting. */
function soon(): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, 0));
}
