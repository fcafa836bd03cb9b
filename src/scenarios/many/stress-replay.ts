import type { StartCause } from '../../sim/causes.ts';
import { START_CAUSES } from '../../sim/causes.ts';
import type { StepColumns } from '../../sim/columns.ts';
import type { Controls } from '../../sim/controls.ts';
import type { Inputs } from '../../sim/inputs.ts';
import type { Plant } from '../../sim/plant.ts';
import { controlsFromSite } from '../controls-from-site.ts';
import { findDarkWeek } from '../dark-week.ts';
import { plantFromSite } from '../plant-from-site.ts';
import type { TimeAxis } from '../series.ts';
import type { DarkWeek } from '../study.ts';
import { worstYear } from './stress-result.ts';
import { yearsOfRun } from './stress-run.ts';
import { drawOf, type StressPlan } from './stress-study.ts';

/** The worst year of an alternative, step by step. */
export interface WorstYear {
  run: number;
  year: number;
  axis: TimeAxis;
  timeZone: string;
  plant: Plant;
  controls: Controls;
  inputs: Inputs;
  columns: StepColumns;
  runs: { startH: number; endH: number; cause: StartCause }[];
  /** the seven days in which the array falls furthest short of the load */
  darkWeek: DarkWeek;
  /** the seven days with most unserved energy, where there is any outside the dark week */
  shortWeek: { fromStep: number; toStep: number; unservedKwh: number } | null;
}

/** Simulates the run that holds an alternative's worst year once more, up to that year. @param index of the alternative */
export function replayWorst(plan: StressPlan, index: number): WorstYear {
  const { study, alternatives, weathers } = plan;
  const { site } = alternatives[index];
  const { run, year } = worstYear(study.alternatives[index]);
  const draw = drawOf(site, run, weathers);
  for (const { year: done, inputs, columns } of yearsOfRun(site, draw, weathers)) {
    if (done.year < year) continue;
    const { made } = weathers.at(site, draw.years[year - 1].weather);
    const darkWeek = findDarkWeek(inputs, columns);
    if (darkWeek === null) break;
    return {
      ...{ run, year, inputs, columns, darkWeek },
      axis: made.axis,
      timeZone: site.site.timeZone,
      plant: plantFromSite(site, made.airAtStartC, made.acArrayShare),
      controls: controlsFromSite(site),
      runs: runsOf(columns, inputs.stepMin),
      shortWeek: done.unservedKwh > darkWeek.unservedKwh + 1e-9 ? shortWeek(inputs, columns) : null,
    };
  }
  throw new Error(`no year ${year} in run ${run}`);
}

/** Runs of the generator from its column of causes, to whole steps. */
function runsOf({ cause }: StepColumns, stepMin: number): WorstYear['runs'] {
  const runs: WorstYear['runs'] = [];
  const hour = (step: number) => (step * stepMin) / 60;
  for (let from = 0; from < cause.length; ) {
    let to = from + 1;
    while (to < cause.length && cause[to] === cause[from]) to++;
    if (cause[from] > 0)
      runs.push({ startH: hour(from), endH: hour(to), cause: START_CAUSES[cause[from] - 1] });
    from = to;
  }
  return runs;
}

/** Seven days that begin with a step of the first step's time of day; of equal ones the first. */
function shortWeek({ stepMin, count }: Inputs, { unservedKw }: StepColumns): WorstYear['shortWeek'] {
  const perDay = 1440 / stepMin;
  const days = Array.from({ length: Math.floor(count / perDay) }, (_, day) =>
    unservedKw.subarray(day * perDay, (day + 1) * perDay).reduce((sum, kw) => sum + kw, 0),
  );
  let most = { first: 0, sum: -1 };
  for (let first = 0; first + 7 <= days.length; first++) {
    const sum = days.slice(first, first + 7).reduce((total, value) => total + value, 0);
    if (sum > most.sum + 1e-9) most = { first, sum };
  }
  const unservedKwh = (most.sum * stepMin) / 60;
  return { fromStep: most.first * perDay, toStep: (most.first + 7) * perDay, unservedKwh };
}
