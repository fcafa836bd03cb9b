import type { Issue } from '../../../scenarios/issue.ts';
import { tune, usualRuns } from '../../../scenarios/many/tune.ts';
import type { TuneResult } from '../../../scenarios/many/tune-result.ts';
import { makePaper } from '../../charts/paper.ts';
import { basis, figures, howFlat, whatToSet } from '../../tune/parts.ts';
import { tuneSentences } from '../../tune/sentences.ts';
import type { ShownStudy, TuneAsked } from '../study-messages.ts';
import {
  bestChoices,
  choiceOf,
  chosenFor,
  headsOf,
  ofWords,
  stoppedSearch,
  wordsOf,
} from './shown-search.ts';
import { overThreads, type StudyGround } from './study-ground.ts';

/** Generator rules that cost least, and the best sets that were tried, each of which can be taken. */
export async function shownTune(
  asked: TuneAsked,
  ground: StudyGround,
): Promise<{ shown: Omit<ShownStudy, 'key'> } | { issues: Issue[] }> {
  const site = chosenFor(ground, asked.alternative, asked.stepMin);
  if ('issues' in site) return site;
  const { chosen, filed } = site;
  const { rules, seasons, limits } = asked;
  const { result: found, many } = await overThreads(ground, chosen.stepMin, async ({ evaluate }, doing) => ({
    findings: await tune({
      ...{ site: chosen.site, base: chosen.base, evaluate, stepMin: chosen.stepMin },
      ...{ rules, seasons, limits, mostRuns: asked.runs ?? usualRuns(rules, seasons), onProgress: doing },
    }),
  }));
  // years that it was not chosen for change other values too
  const isChoice = (changes: Record<string, unknown>) =>
    Object.keys(changes).every((path) => path in chosen.base || path.startsWith('control.'));
  const tried = bestChoices(many.finished, site, limits, isChoice, 'running');
  if (found === null) return { shown: stoppedSearch('tune', chosen, tried, many.finished.length) };
  if (found.findings === null) return { issues: [noRule(ground.file)] };
  const result: TuneResult = {
    site: chosen.heading,
    alternative: chosen.alternative,
    ...found.findings,
    doubts: chosen.doubts,
    made: chosen.made,
  };
  const { changes, chosen: outcome, brokenChosen: broken } = result;
  const best = choiceOf({ changes, outcome, broken }, wordsOf(changes, chosen.base, filed), result.limits, [
    'the chosen set',
  ]);
  const others = tried.filter((one) => one.name !== best.name && one.figures.join() !== best.figures.join());
  const choices = [best, ...others];
  const parts = [whatToSet(result, false), howFlat(result, makePaper()), figures(result)];
  return {
    shown: {
      ...{ kind: 'tune', of: ofWords(chosen), sentences: tuneSentences(result), care: [] },
      parts: parts.map(({ html }) => ({ html, cells: [] })),
      heads: headsOf(chosen.heading.currency, result.years),
      ...{ choices, listed: [...choices.keys()], basis: basis(result).html, stopped: '' },
    },
  };
}

function noRule(file: string): Issue {
  return {
    ...{ severity: 'error', code: 'tune', path: 'control', at: { file } },
    got: 'no rule that starts the generator by a number',
    want: 'control.charge or control.peak',
  };
}
