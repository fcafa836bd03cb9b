import { upperMedianOf } from './middle-values.ts';
import type { Rerunner } from './rerun.ts';
import type { AlternativeResult } from './study.ts';
import { type Remedy, remediesOf } from './why-start-remedies.ts';
import { type StartState, stateAtStart } from './why-start-state.ts';

/** Why one run was looked at. */
export type ChosenFor = 'longest' | 'first of the dark week' | 'typical' | 'asked';

/** Why the generator started once, and what would have kept it standing. */
export interface StartStory {
  /** place in the ledger's runs */
  run: number;
  chosenFor: readonly ChosenFor[];
  state: StartState;
  remedies: Remedy[];
}

/**
 * The story of one run: the state that led to it, and the least of each change that would have avoided it, each
 * found by running the whole period again.
 * @param run place in the ledger's runs
 */
export function startStory(rerunner: Rerunner, run: number, chosenFor: readonly ChosenFor[]): StartStory {
  const state = stateAtStart(rerunner.result, run);
  return { run, chosenFor, state, remedies: remediesOf(rerunner, run, state) };
}

/** The runs worth a story: the longest, the first of the dark week, and the most typical one of each cause. */
export function startStories(rerunner: Rerunner): StartStory[] {
  const chosen = new Map<number, ChosenFor[]>();
  const choose = (run: number, why: ChosenFor) => {
    if (run >= 0) chosen.set(run, [...(chosen.get(run) ?? []), why]);
  };
  const { runs } = rerunner.result.ledger;
  choose(longestRun(rerunner.result), 'longest');
  choose(firstOfDarkWeek(rerunner.result), 'first of the dark week');
  for (const cause of new Set(runs.map((run) => run.cause)))
    choose(typicalRun(rerunner.result, cause), 'typical');
  return [...chosen.entries()]
    .sort(([a], [b]) => a - b)
    .map(([run, chosenFor]) => startStory(rerunner, run, chosenFor));
}

/** The first of the longest; -1 where nothing ran. */
function longestRun({ ledger }: AlternativeResult): number {
  const lengths = ledger.runs.map(({ startH, endH }) => endH - startH);
  return lengths.indexOf(Math.max(...lengths));
}

function firstOfDarkWeek({ ledger, darkWeek }: AlternativeResult): number {
  if (darkWeek === null) return -1;
  const hourOf = (step: number) => (step * ledger.stepMin) / 60;
  return ledger.runs.findIndex(
    ({ startH }) => startH >= hourOf(darkWeek.fromStep) && startH < hourOf(darkWeek.toStep),
  );
}

/** The run of a cause that lies nearest to the medians of length, energy and hour of the day of all of its cause. */
export function typicalRun({ ledger }: AlternativeResult, cause: string): number {
  const all = ledger.runs.flatMap((run, i) => (run.cause === cause ? [{ ...run, i }] : []));
  const measures = [
    all.map(({ startH, endH }) => endH - startH),
    all.map(({ kwh }) => kwh),
    all.map(({ startH }) => startH % 24),
  ].map(distancesFromMedian);
  const total = all.map((_, i) => measures.reduce((sum, distance) => sum + distance[i], 0));
  return all[total.indexOf(Math.min(...total))]?.i ?? -1;
}

/** How far each value lies from the median, in mean distances. */
function distancesFromMedian(values: readonly number[]): number[] {
  const median = upperMedianOf(values);
  const distances = values.map((value) => Math.abs(value - median));
  const mean = distances.reduce((sum, distance) => sum + distance, 0) / values.length;
  return distances.map((distance) => (mean > 0 ? distance / mean : 0));
}
