import type { SiteChanges } from '../../../scenarios/apply-changes.ts';
import type { Issue } from '../../../scenarios/issue.ts';
import { bestFinished, type FinishedVariant } from '../../../scenarios/many/best-finished.ts';
import type { ChosenSite } from '../../../scenarios/many/chosen-site.ts';
import { chooseSite } from '../../../scenarios/many/chosen-site.ts';
import { Filed } from '../../../scenarios/many/ground.ts';
import type { AskedLimits, SourcedLimits } from '../../../scenarios/many/limits.ts';
import type { Finished } from '../../../scenarios/many/remembered.ts';
import { runningCostOf } from '../../../scenarios/many/score.ts';
import type { YearOutcome } from '../../../scenarios/many/year-outcome.ts';
import { changeWords, isMainChange, valueName, valueText } from '../../change-words.ts';
import { brokenWords } from '../../limit-words.ts';
import { bareFigure, digits } from '../../numbers.ts';
import { counted } from '../../words.ts';
import type { Choice, ShownStudy } from '../study-messages.ts';
import type { StudyGround } from './study-ground.ts';

/** What the searches for settings and for sizes have in common. */

/** The site as filed or an alternative, and the file that it is changed in; or what is wrong. */
export function chosenFor(
  { text, file, readFile }: StudyGround,
  alternative: string | undefined,
  stepMin: number | undefined,
): { chosen: ChosenSite; filed: Filed } | { issues: Issue[] } {
  const { chosen, issues } = chooseSite({ text, file, readFile, version: '', alternative, stepMin });
  return chosen === null ? { issues } : { chosen, filed: new Filed(text, file) };
}

/** "Of ‘24 modules’, in steps of 5 min." */
export function ofWords({ alternative, stepMin }: ChosenSite): string {
  return `${alternative === null ? 'The site as filed' : `The alternative ‘${alternative}’`}, in steps of ${stepMin} min.`;
}

/** Heads of the figures of a choice. */
export function headsOf(currency: string, years: number): string[] {
  return [
    `At the start, ${currency}`,
    `Paid after it over ${counted(digits(years), 'year')}, ${currency}`,
    'Fuel a year, L',
    'Generator runs a year, h',
    'Unserved a year, kWh',
  ];
}

export function figuresOf(outcome: YearOutcome): string[] {
  return [
    bareFigure('money', outcome.capital, 0),
    bareFigure('money', runningCostOf(outcome), 0),
    bareFigure('litres', outcome.fuelL, 0),
    bareFigure('hours', outcome.runH, 0),
    bareFigure('kwh', outcome.unservedKwh, outcome.unservedKwh > 0 && outcome.unservedKwh < 10 ? 1 : 0),
  ];
}

/** What a choice changes, as far as a reader knows it by name: "generator started at 25 %, minimum run 30 min". */
export function wordsOf(changes: SiteChanges, base: SiteChanges, filed: Filed): string {
  const words = Object.entries(changes).flatMap(([path, to]) => {
    const now = filed.valueAt(path);
    const from = path in base ? base[path] : 'value' in now ? now.value : undefined;
    if (JSON.stringify(from) === JSON.stringify(to) || !isMainOrRule(path)) return [];
    const isPlain = typeof to === 'number' && path !== 'battery.modules';
    return [
      isPlain ? `${valueName(path).name} ${valueText(path, to)}` : changeWords({ path, from: undefined, to }),
    ];
  });
  return words.length > 0 ? words.join(', ') : 'as it is today';
}

function isMainOrRule(path: string): boolean {
  return path.startsWith('control.') || isMainChange({ path, from: null, to: null });
}

export function choiceOf(
  { changes, outcome, broken }: FinishedVariant,
  name: string,
  limits: SourcedLimits,
  marks: readonly string[] = [],
): Choice {
  const all = [...marks, ...broken.map((key) => brokenWords(key, limits))];
  return { name, changes, capital: 0, figures: figuresOf(outcome), marks: all.join(', ') };
}

/** Of what was finished so many are listed. */
const MOST_LISTED = 12;

/** The best of what a search has finished as choices; today's first. */
export function bestChoices(
  finished: readonly Finished[],
  { chosen, filed }: { chosen: ChosenSite; filed: Filed },
  asked: AskedLimits,
  isChoice: (changes: SiteChanges) => boolean,
  cost: 'all' | 'running',
): Choice[] {
  const { site, base, stepMin } = chosen;
  const best = bestFinished(finished, { site, stepMin, limits: asked }, isChoice, cost);
  if (best === null) return [];
  const { today, others, limits } = best;
  const words = (one: FinishedVariant) => wordsOf(one.changes, base, filed);
  const choices = others.map((one) => choiceOf(one, words(one), limits));
  // of several that give the same the first will do
  const seen = new Set<string>();
  const different = choices.filter(({ figures, marks }) => {
    const key = JSON.stringify([figures, marks]);
    return !seen.has(key) && seen.add(key);
  });
  return [choiceOf(today, words(today), limits, ['today']), ...different.slice(0, MOST_LISTED)];
}

/** What is shown of a search that was stopped. */
export function stoppedSearch(
  kind: 'tune' | 'size',
  chosen: ChosenSite,
  choices: Choice[],
  finished: number,
): Omit<ShownStudy, 'key'> {
  return {
    ...{ kind, of: ofWords(chosen), sentences: [], care: [], parts: [], basis: '' },
    heads: headsOf(chosen.heading.currency, chosen.site.money.years),
    ...{ choices, listed: [...choices.keys()] },
    stopped:
      choices.length === 0
        ? 'Stopped before anything was finished in the steps of the figures.'
        : `Stopped after ${counted(digits(finished), 'run')}: below are the best of what was finished, which need not be the best there is. The same question goes on from here.`,
  };
}
