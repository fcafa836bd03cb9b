import seedrandom from 'seedrandom';
import type { Site } from '../site-schema.ts';

/** What is drawn for one year of a run. */
export interface YearDraw {
  /** place in the list of weather years, from 0 */
  weather: number;
  /** a delivery of fuel is late or missed */
  late: boolean;
  /** of fixed deliveries, which: 0 the first of the year, towards 1 the last */
  which: number;
}

/** What is drawn for a run; the same for every alternative, so that they meet the same years. */
export interface RunDraw {
  /** from 1 */
  run: number;
  loadFactor: number;
  fuelPriceFactor: number;
  /** for the outcomes of start attempts */
  startSeed: string;
  years: YearDraw[];
}

/**
 * The draws of a run, by a generator of its own, so that runs may be made in any order or number.
 * @param run from 1; @param years of the study; @param weathers to draw from, with putting back
 */
export function drawRun(
  { stress }: Pick<Site, 'stress'>,
  run: number,
  years: number,
  weathers: number,
): RunDraw {
  const startSeed = `${stress.seed} run ${run}`;
  const draw = seedrandom(startSeed);
  const between = ([low, high]: readonly [number, number]) => low + (high - low) * draw();
  const loadFactor = between(stress.load);
  const fuelPriceFactor = between(stress.fuelPrice);
  const drawn = Array.from({ length: years }, (): YearDraw => {
    const weather = Math.floor(draw() * weathers);
    return { weather, late: draw() < stress.lateDelivery.chance, which: draw() };
  });
  return { run, loadFactor, fuelPriceFactor, startSeed, years: drawn };
}
