import type { Evaluate } from './evaluate.ts';
import type { Outcome } from './outcome.ts';

/** An outcome whose sums are by the year, whatever the simulated period is. */
export type YearOutcome = Outcome;

/** Sums of a period; money and CO2 are by the year already. */
const SUMS = [
  'fuelL',
  'runH',
  'starts',
  'lowLoadH',
  'nightH',
  'unservedKwh',
  'unservedH',
  'outages',
  'curtailedKwh',
  'visits',
] as const satisfies readonly (keyof Outcome)[];

/** Evaluates with sums by the year. @param days length of the simulated period [d] */
export function byTheYear(evaluate: Evaluate, days: number): Evaluate {
  return async (variants, stepMin) =>
    (await evaluate(variants, stepMin)).map((outcome) => inYears(outcome, days));
}

/** An outcome of a period of so many days with its sums by the year. */
export function inYears(outcome: Outcome, days: number): YearOutcome {
  const year = { ...outcome };
  for (const key of SUMS) year[key] /= days / 365;
  return year;
}
