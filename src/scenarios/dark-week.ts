import type { StepColumns } from '../sim/columns.ts';
import type { Inputs } from '../sim/inputs.ts';
import type { DarkWeek } from './study.ts';

/**
 * The seven days in a row with the least margin: the array's output on offer, less the load, over 7·24 hours that
 * begin with a step of the run whose time of day is that of the first step. With the same margin the earlier one.
 * @param found where they lie, for inputs of which that is known
 * @returns null for runs shorter than a week
 */
export function findDarkWeek(
  inputs: Inputs,
  columns: StepColumns,
  found: Pick<DarkWeek, 'fromStep' | 'toStep'> | null = darkestDays(inputs),
): DarkWeek | null {
  if (found === null) return null;
  const { fromStep, toStep } = found;
  return {
    fromStep,
    toStep,
    loadKwh: loadKwh(inputs, fromStep, toStep),
    arrayKwh: arrayKwh(inputs, fromStep, toStep),
    generatorKwh: energy(columns.generatorKw, inputs.stepMin, fromStep, toStep),
    unservedKwh: energy(columns.unservedKw, inputs.stepMin, fromStep, toStep),
  };
}

/** Where the dark week lies, which load and weather alone decide; null for runs shorter than a week. */
export function darkestDays(inputs: Inputs): Pick<DarkWeek, 'fromStep' | 'toStep'> | null {
  const perDay = 1440 / inputs.stepMin;
  const days = Math.floor(inputs.count / perDay);
  if (days < 7) return null;
  const margin = Float64Array.from(
    { length: days },
    (_, day) =>
      arrayKwh(inputs, day * perDay, (day + 1) * perDay) - loadKwh(inputs, day * perDay, (day + 1) * perDay),
  );
  let least = 0;
  let leastSum = Number.POSITIVE_INFINITY;
  for (let day = 0; day + 7 <= days; day++) {
    const sum = margin.subarray(day, day + 7).reduce((total, value) => total + value, 0);
    if (sum < leastSum - 1e-9) {
      least = day;
      leastSum = sum;
    }
  }
  return { fromStep: least * perDay, toStep: (least + 7) * perDay };
}

function arrayKwh({ dcArrayKw, acArrayKw, stepMin }: Inputs, from: number, to: number): number {
  return energy(dcArrayKw, stepMin, from, to) + energy(acArrayKw, stepMin, from, to);
}

function loadKwh({ loadKw, stepMin }: Inputs, from: number, to: number): number {
  return loadKw.reduce((sum, phase) => sum + energy(phase, stepMin, from, to), 0);
}

function energy(kw: Float64Array | undefined, stepMin: number, from: number, to: number): number {
  if (!kw) return 0;
  let sum = 0;
  for (let i = from; i < to; i++) sum += kw[i];
  return (sum * stepMin) / 60;
}
