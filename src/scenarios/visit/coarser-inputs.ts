import type { Inputs } from '../../sim/inputs.ts';

/** Flags of a moment: whenever it falls within a step, the step has it. */
const MOMENTS: readonly (keyof Inputs)[] = ['exerciseDue', 'shiftDeadline'];

/**
 * The series of a run in longer steps: means of powers and temperatures, flags as at the start of each step.
 * @param stepMin a multiple of the series' step that divides an hour; what is left of the last step is left out
 */
export function coarserInputs(inputs: Inputs, stepMin: number): Inputs {
  const per = stepMin / inputs.stepMin;
  if (per === 1) return inputs;
  if (!Number.isInteger(per)) throw new Error(`${stepMin} min is no multiple of ${inputs.stepMin} min`);
  const count = Math.floor(inputs.count / per);
  const coarser = (value: unknown, name: keyof Inputs): unknown => {
    if (Array.isArray(value)) return value.map((one) => coarser(one, name));
    if (name === 'startFails') return value;
    if (value instanceof Float64Array)
      return Float64Array.from({ length: count }, (_, i) => {
        let sum = 0;
        for (let j = i * per; j < (i + 1) * per; j++) sum += value[j];
        return sum / per;
      });
    if (value instanceof Uint8Array)
      return Uint8Array.from({ length: count }, (_, i) =>
        MOMENTS.includes(name) ? Math.max(...value.subarray(i * per, (i + 1) * per)) : value[i * per],
      );
    return value;
  };
  const entries = Object.entries(inputs).map(([name, value]) => [name, coarser(value, name as keyof Inputs)]);
  return {
    ...(Object.fromEntries(entries) as Inputs),
    ...{ stepMin, count },
    ...(inputs.refillSteps && {
      refillSteps: Int32Array.from(new Set(inputs.refillSteps.map((step) => Math.floor(step / per)))),
    }),
  };
}
