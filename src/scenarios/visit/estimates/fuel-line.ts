import type { Estimate } from '../visit.ts';
import { type LogView, missing } from './log-view.ts';
import { fitted, refused } from './outcome.ts';
import { fitDrops } from './tank-drops.ts';
import { restsOf } from './tank-rests.ts';

const LEAST_RUNS = 10;
/** A standard error of more than this share says nothing. */
const MOST_ERROR = 0.5;

/**
 * Litres an hour at no load and per kWh, from the levels at which the tank stands between runs: level = start −
 * a·hours run − b·kWh, with a new start after each delivery. Levels are means over whole standstills.
 * A curve is no line: `designed` is what the same fit makes of the litres that the curve of the site file has for these
 * runs.
 */
export function fuelLine(view: LogView): [Estimate, Estimate] {
  const refuse = (
    why: 'no-column' | 'too-little' | 'not-told-apart',
    lacks: string,
  ): [Estimate, Estimate] => [refused('fuelAtRest', why, lacks), refused('fuelPerKwh', why, lacks)];
  const { generatorKw, running, plant } = view;
  if (plant.generator === null) return refuse('not-told-apart', 'a generator in the site file');
  const fuelL = view.column('fuelL');
  if (fuelL === null || generatorKw === null || running === null)
    return refuse('no-column', missing({ fuelL, generatorKw, generatorOn: running }));
  const rests = restsOf(view, { fuelL, running, generatorKw });
  if (rests.length <= LEAST_RUNS)
    return refuse('too-little', `${rests.length} standstills, ${LEAST_RUNS + 1} needed`);
  const fit = fitDrops(rests, view.quantum('fuelL'));
  if (fit === null) return refuse('not-told-apart', 'runs at different loads');
  const basis = { count: rests.length - 1, of: 'runs' } as const;
  const make = (key: 'fuelAtRest' | 'fuelPerKwh', j: number): Estimate => {
    if (!(fit.error[j] < MOST_ERROR * fit.beta[j]))
      return refused(key, 'not-told-apart', 'runs at different loads');
    const { beta, error, designed, freedom } = fit;
    const told = { designed: designed[j], basis };
    return fitted(key, { value: beta[j], error: error[j], freedom }, view, told);
  };
  return [make('fuelAtRest', 0), make('fuelPerKwh', 1)];
}
