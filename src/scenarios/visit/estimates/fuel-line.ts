import type { Generator } from '../../../sim/plant.ts';
import type { Estimate } from '../visit.ts';
import { type LogView, missing } from './log-view.ts';
import { fitted, refused } from './outcome.ts';
import { quantumOf } from './rounding.ts';

const LEAST_RUNS = 10;
/** A rise of so much, or a fall while the engine stands, has another cause than the engine [L] */
const MOVED_L = 5;
/** Levels of a standstill that are needed for a mean */
const LEAST_LEVELS = 3;

/** A standstill between two runs. */
interface Rest {
  meanL: number;
  levels: number;
  /** sum of squares about the mean */
  squares: number;
  /** burnt since the start of the log: hours run and energy */
  runH: number;
  kwh: number;
  /** fuel came or went other than by the engine between the one before and this */
  isBroken: boolean;
}

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
  const rests = restsOf(view, fuelL, running, generatorKw);
  if (rests.length <= LEAST_RUNS)
    return refuse('too-little', `${rests.length} standstills, ${LEAST_RUNS + 1} needed`);
  const fit = fitLine(rests, quantumOf(fuelL));
  if (fit === null) return refuse('not-told-apart', 'runs at different loads');
  const designed = lineOf(plant.generator);
  const basis = { count: rests.length - 1, of: 'runs' } as const;
  const make = (key: 'fuelAtRest' | 'fuelPerKwh', j: number): Estimate => {
    // an interval as wide as the value says nothing of it
    if (fit.error[j] > Math.abs(fit.beta[j]))
      return refused(key, 'not-told-apart', 'runs at different loads');
    const { beta, error, freedom } = fit;
    const told = { designed: designed[j], basis };
    return fitted(key, { value: beta[j], error: error[j], freedom }, view, told);
  };
  return [make('fuelAtRest', 0), make('fuelPerKwh', 1)];
}

function restsOf(
  view: LogView,
  fuelL: Float64Array,
  running: Float64Array,
  generatorKw: Float64Array,
): Rest[] {
  const rests: Rest[] = [];
  let [runH, kwh] = [0, 0];
  let levels: number[] = [];
  let isBroken = false;
  const close = () => {
    if (levels.length < LEAST_LEVELS) return;
    const meanL = levels.reduce((sum, l) => sum + l, 0) / levels.length;
    const squares = levels.reduce((sum, l) => sum + (l - meanL) ** 2, 0);
    const last = rests.at(-1);
    const rose = last !== undefined && meanL > last.meanL + MOVED_L;
    rests.push({ meanL, levels: levels.length, squares, runH, kwh, isBroken: isBroken || rose });
    isBroken = false;
  };
  for (let i = 0; i < view.count; i++) {
    const unknown = Number.isNaN(running[i]) || Number.isNaN(generatorKw[i]) || Number.isNaN(fuelL[i]);
    const moved = levels.length > 0 && Math.abs(fuelL[i] - levels[levels.length - 1]) > MOVED_L;
    if (unknown || running[i] > 0 || moved) {
      close();
      levels = [];
    }
    // what the engine did while nothing was logged is not known
    if (unknown || (moved && running[i] === 0)) isBroken = true;
    if (unknown) continue;
    if (running[i] > 0) {
      runH += running[i] * view.hours;
      kwh += generatorKw[i] * view.hours;
    } else levels.push(fuelL[i]);
  }
  close();
  return rests;
}

/** Weighted least squares with a start of its own for each stretch between deliveries. */
function fitLine(
  rests: readonly Rest[],
  quantum: number,
): { beta: [number, number]; error: [number, number]; freedom: number } | null {
  const all = rests.reduce((sum, { squares }) => sum + squares, 0);
  const free = rests.reduce((sum, { levels }) => sum + levels - 1, 0);
  const spread = all / Math.max(1, free);
  // a reading that hardly trembles is rounded the same way all through a standstill
  const rounding = spread < (0.3 * quantum) ** 2 ? quantum ** 2 / 12 : 0;
  const stretches: Rest[][] = [];
  for (const rest of rests) {
    if (rest.isBroken || stretches.length === 0) stretches.push([]);
    (stretches.at(-1) as Rest[]).push(rest);
  }
  const rows: { w: number; h: number; e: number; l: number }[] = [];
  for (const stretch of stretches) {
    const weighed = stretch.map((rest) => ({ ...rest, w: 1 / (spread / rest.levels + rounding + 1e-9) }));
    const sum = weighed.reduce((total, { w }) => total + w, 0);
    const mean = (of: (rest: Rest) => number) => weighed.reduce((t, rest) => t + rest.w * of(rest), 0) / sum;
    const [h, e, l] = [mean((r) => r.runH), mean((r) => r.kwh), mean((r) => r.meanL)];
    for (const r of weighed) rows.push({ w: r.w, h: r.runH - h, e: r.kwh - e, l: l - r.meanL });
  }
  const sum = (of: (row: (typeof rows)[number]) => number) => rows.reduce((t, row) => t + row.w * of(row), 0);
  const [hh, he, ee] = [sum(({ h }) => h * h), sum(({ h, e }) => h * e), sum(({ e }) => e * e)];
  const [hl, el] = [sum(({ h, l }) => h * l), sum(({ e, l }) => e * l)];
  const det = hh * ee - he * he;
  const freedom = rows.length - stretches.length - 2;
  if (freedom < 3 || !(det > 1e-9 * hh * ee)) return null;
  const beta: [number, number] = [(ee * hl - he * el) / det, (hh * el - he * hl) / det];
  const left = sum(({ h, e, l }) => (l - beta[0] * h - beta[1] * e) ** 2) / freedom;
  return { beta, error: [Math.sqrt((left * ee) / det), Math.sqrt((left * hh) / det)], freedom };
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
