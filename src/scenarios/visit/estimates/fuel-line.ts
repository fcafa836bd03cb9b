import type { Generator } from '../../../sim/plant.ts';
import type { Estimate } from '../visit.ts';
import { type LogView, missing } from './log-view.ts';
import { fitted, refused } from './outcome.ts';
import { quantumOf } from './rounding.ts';
import { fitDrops } from './tank-drops.ts';
import { restsOf } from './tank-rests.ts';

const LEAST_RUNS = 10;
/** A standard error of more than this share says nothing. */
const MOST_ERROR = 0.5;

/**
 * Litres an hour at no load and per kWh, from the levels at which the tank stands between runs: level = start −
 * a·hours run − b·kWh, with a new start after each delivery. Levels are means over whole standstills.
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
  const fit = fitDrops(rests, quantumOf(fuelL));
  if (fit === null) return refuse('not-told-apart', 'runs at different loads');
  const designed = lineOf(plant.generator);
  const basis = { count: rests.length - 1, of: 'runs' } as const;
  const make = (key: 'fuelAtRest' | 'fuelPerKwh', j: number): Estimate => {
    if (!(fit.error[j] < MOST_ERROR * fit.beta[j]))
      return refused(key, 'not-told-apart', 'runs at different loads');
    const { beta, error, freedom } = fit;
    const told = { designed: designed[j], basis };
    return fitted(key, { value: beta[j], error: error[j], freedom }, view, told);
  };
  return [make('fuelAtRest', 0), make('fuelPerKwh', 1)];
}

/** The straight line that is nearest to the points of a fuel curve. */
function lineOf({ fuelKw, fuelLPerH }: Generator): [number, number] {
  const n = fuelKw.length;
  const meanKw = fuelKw.reduce((sum, kw) => sum + kw, 0) / n;
  const meanL = fuelLPerH.reduce((sum, l) => sum + l, 0) / n;
  const products = fuelKw.reduce((sum, kw, i) => sum + (kw - meanKw) * (fuelLPerH[i] - meanL), 0);
  const squares = fuelKw.reduce((sum, kw) => sum + (kw - meanKw) ** 2, 0);
  const slope = products / squares;
  return [meanL - slope * meanKw, slope];
}
