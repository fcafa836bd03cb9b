import { medianOf } from '../../middle-values.ts';
import type { VisitGround } from '../ground.ts';
import type { Fault } from '../visit.ts';
import { fault } from './detector.ts';
import { stepHours, timeOf } from './log-days.ts';

/** A peak of losses within a step of the log may heat the air for less than this [h]. */
const LASTING_H = 2;

/**
 * A fault of a heater or cooler from the steps in which a working one would have kept the temperature.
 * @param offBy by how much a step is beyond what a working one would have left [K]; NaN: not to be told
 * @param least so much counts [K]; @param duration for so long in all [h]
 */
export function faultOfSteps(
  ground: VisitGround,
  kind: 'heater-off' | 'cooler-off',
  offBy: Float64Array,
  { least, duration, seenC }: { least: number; duration: number; seenC: Float64Array },
): Fault[] {
  const steps = lasting(offBy, least, Math.ceil(LASTING_H / stepHours(ground)));
  const hours = steps.length * stepHours(ground);
  if (hours < duration) return [];
  const told = offBy.reduce((count, value) => count + (Number.isNaN(value) ? 0 : 1), 0);
  return [
    fault({
      ...{ kind, part: null, size: medianOf(steps.map((i) => offBy[i])) },
      ...{ fromS: timeOf(ground, steps[0]), toS: timeOf(ground, steps[steps.length - 1] + 1) },
      evidence: {
        hours,
        seenC: medianOf(steps.map((i) => seenC[i])),
        expectedC: medianOf(steps.map((i) => seenC[i] + (kind === 'heater-off' ? offBy[i] : -offBy[i]))),
        toldHours: told * stepHours(ground),
      },
    }),
  ];
}

/** Steps at or above a value in stretches of at least so many. */
function lasting(values: Float64Array, least: number, count: number): number[] {
  const steps: number[] = [];
  let from = 0;
  for (let i = 0; i <= values.length; i++) {
    if (values[i] >= least) continue;
    if (i - from >= count) for (let k = from; k < i; k++) steps.push(k);
    from = i + 1;
  }
  return steps;
}
