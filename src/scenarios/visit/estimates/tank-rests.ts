import { fuelRateLPerH, fuelStretches } from '../../../sim/fuel.ts';
import type { LogView } from './log-view.ts';

/** A rise of so much, or a fall while the engine stands, has another cause than the engine [L]: or more, by errors. */
const MOVED_L = 5;
const MOVED_ERRORS = 6;
/** Levels of a standstill that are needed for a mean. */
const LEAST_LEVELS = 3;
/** A tank so near to its reserve may have run dry, and its gauge stands at its end [L]. */
const NEAR_DRY_L = 2;

/** A standstill between two runs. */
export interface Rest {
  meanL: number;
  levels: number;
  /** sum of squares about the mean */
  squares: number;
  /** hours run and energy since the start of the log, and the squares of the steps' energies */
  runH: number;
  kwh: number;
  kwhSquares: number;
  /** what the engine as filed would have burnt since the start of the log [L] */
  designedL: number;
  /** fuel came or went other than by the engine between the one before and this */
  isBroken: boolean;
}

/** The standstills of a log, in the order of time. */
export function restsOf(
  view: LogView,
  columns: { fuelL: Float64Array; running: Float64Array; generatorKw: Float64Array },
): Rest[] {
  const { fuelL, running, generatorKw } = columns;
  const rests: Rest[] = [];
  const movedL = Math.max(MOVED_L, MOVED_ERRORS * readingError(fuelL), 3 * view.quantum('fuelL'));
  const nearDryL = (view.plant.tank?.reserveL ?? 0) + NEAR_DRY_L;
  const rate = designedRate(view);
  const burnt = { runH: 0, kwh: 0, kwhSquares: 0, designedL: 0 };
  let levels: number[] = [];
  let sum = 0;
  let isBroken = false;
  const close = () => {
    const meanL = sum / levels.length;
    if (levels.length >= LEAST_LEVELS && meanL > nearDryL) {
      const squares = levels.reduce((all, l) => all + (l - meanL) ** 2, 0);
      const last = rests.at(-1);
      const rose = last !== undefined && meanL > last.meanL + movedL;
      rests.push({ meanL, levels: levels.length, squares, ...burnt, isBroken: isBroken || rose });
      isBroken = false;
    } else if (levels.length > 0 && meanL <= nearDryL) isBroken = true;
    levels = [];
    sum = 0;
  };
  for (let i = 0; i < view.count; i++) {
    const isUnknown = Number.isNaN(running[i]) || Number.isNaN(generatorKw[i]) || Number.isNaN(fuelL[i]);
    const stands = running[i] === 0;
    const moved = stands && levels.length > 0 && Math.abs(fuelL[i] - sum / levels.length) > movedL;
    if (isUnknown || !stands || moved) close();
    // what the engine did while nothing was logged is not known
    if (isUnknown || moved) isBroken = true;
    if (isUnknown) continue;
    if (stands) {
      levels.push(fuelL[i]);
      sum += fuelL[i];
      continue;
    }
    const kwh = generatorKw[i] * view.hours;
    burnt.runH += running[i] * view.hours;
    burnt.kwh += kwh;
    burnt.kwhSquares += kwh * kwh;
    burnt.designedL += rate(generatorKw[i] / running[i]) * running[i] * view.hours;
  }
  close();
  return rests;
}

/** Litres an hour at a load, by the curve of the site file. */
function designedRate({ plant: { generator } }: LogView): (kw: number) => number {
  if (generator === null) return () => 0;
  const { breaks, lines } = fuelStretches(generator.fuelKw, generator.fuelLPerH);
  return (kw) => fuelRateLPerH(kw, ...breaks, ...lines);
}

/** Deviation of single readings, by how much they differ from one to the next [L]. */
function readingError(fuelL: Float64Array): number {
  const steps = fuelL.subarray(1).map((level, i) => Math.abs(level - fuelL[i]));
  const known = steps.filter((step) => !Number.isNaN(step)).sort();
  // of a normal error the median step is 0.6745 deviations of a difference
  return known.length > 0 ? known[Math.floor(known.length / 2)] / (0.6745 * Math.SQRT2) : 0;
}
