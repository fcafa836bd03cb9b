import type { ClimateDecision, ColdWeekRun } from '../scenarios/climate-decision.ts';
import type { AlternativeResult } from '../scenarios/study.ts';
import { alone, digits } from './numbers.ts';
import { daySpan, hoursOfStep, localMs, type StudyView } from './view.ts';

type ColdWeek = NonNullable<ClimateDecision['coldWeek']>;

/** The run with a heater first, then the one without. */
export function withAndWithout({ runs }: ColdWeek): [ColdWeekRun, ColdWeekRun] {
  const [asItIs, other] = runs;
  return other.variant === 'with heater' ? [other, asItIs] : [asItIs, other];
}

/** What the coldest week shows, with its numbers. */
export function coldWeekTitle(view: StudyView, result: AlternativeResult, week: ColdWeek): string {
  const first = localMs(view, hoursOfStep(view, week.fromStep));
  const last = localMs(view, hoursOfStep(view, week.toStep) - 0.01);
  const [warm, cold] = withAndWithout(week);
  const kwh = (kw: Float64Array) => (sum(kw) * result.inputs.stepMin) / 60;
  const cells = (run: ColdWeekRun) => `${digits(Math.min(...run.cellC), 1)} °C`;
  const charged = (run: ColdWeekRun) => alone('kwh', kwh(run.chargeKw));
  const generator = result.plant.generator
    ? `, and the generator runs ${alone('hours', warm.runH)} instead of ${alone('hours', cold.runH)}`
    : '';
  return `${daySpan(first, last)}, the coldest week: with a heater the cells come down to ${cells(warm)}, without it to ${cells(cold)}; the battery takes ${charged(warm)} instead of ${charged(cold)}${generator}`;
}

function sum(values: Float64Array): number {
  return values.reduce((total, value) => total + value, 0);
}
