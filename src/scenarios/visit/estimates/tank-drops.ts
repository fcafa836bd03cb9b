import { roundingLeft } from './rounding.ts';
import type { Rest } from './tank-rests.ts';

/** What a step's reading of energy may err by, as litres per kWh of the step: one of these, as likely as it makes the drops. */
const ENERGY_ERRORS = [0, 0.001, 0.002, 0.003, 0.004, 0.006, 0.008, 0.012];
const LEAST_FREEDOM = 3;

/** How far the tank fell from one standstill to the next. */
interface Drop {
  /** litres, hours run, kWh, litres that the designed engine would have burnt */
  y: number[];
  /** variance of the two levels, and what they share with the drop before (0: nothing) */
  variance: number;
  shared: number;
  kwhSquares: number;
}

export interface LineFit {
  /** L/h at no load, L/kWh more */
  beta: [number, number];
  error: [number, number];
  /** what the same runs would have shown with the designed engine: of a curve, the line that is fitted to it here */
  designed: [number, number];
  freedom: number;
}

/**
 * Litres that fell = a·hours run + b·kWh, by generalised least squares: two drops next to one another share a level,
 * and the error of each energy adds to its own drop.
 * @returns null where hours and energy are not told apart
 */
export function fitDrops(rests: readonly Rest[], quantum: number): LineFit | null {
  const drops = dropsOf(rests, quantum);
  const freedom = drops.length - 2;
  if (freedom < LEAST_FREEDOM) return null;
  const solved = ENERGY_ERRORS.flatMap((energyError) => solve(drops, energyError, freedom) ?? []);
  return solved.length > 0 ? weighed(solved, freedom) : null;
}

/** The mean of fits by how likely each is: not to know the error of energies widens the interval. */
function weighed(solved: readonly Solved[], freedom: number): LineFit {
  const most = Math.max(...solved.map(({ likelihood }) => likelihood));
  const weights = solved.map(({ likelihood }) => Math.exp(likelihood - most));
  const all = weights.reduce((sum, weight) => sum + weight, 0);
  const mean = (of: (one: Solved) => number) =>
    solved.reduce((sum, one, k) => sum + (weights[k] / all) * of(one), 0);
  const both = (of: (j: 0 | 1) => number): [number, number] => [of(0), of(1)];
  const beta = both((j) => mean((one) => one.beta[j]));
  return {
    beta,
    error: both((j) => Math.sqrt(mean((one) => one.error[j] ** 2 + (one.beta[j] - beta[j]) ** 2))),
    designed: both((j) => mean((one) => one.designed[j])),
    freedom,
  };
}

function dropsOf(rests: readonly Rest[], quantum: number): Drop[] {
  const squares = rests.reduce((sum, rest) => sum + rest.squares, 0);
  const freedom = rests.reduce((sum, rest) => sum + rest.levels - 1, 0);
  const spread = squares / Math.max(1, freedom);
  const variances = rests.map(({ levels }) => spread / levels + roundingLeft(spread, quantum) + 1e-9);
  const drops: Drop[] = [];
  let joins = false;
  for (let k = 1; k < rests.length; k++) {
    const [before, after] = [rests[k - 1], rests[k]];
    if (after.isBroken) {
      joins = false;
      continue;
    }
    drops.push({
      y: [
        before.meanL - after.meanL,
        after.runH - before.runH,
        after.kwh - before.kwh,
        after.designedL - before.designedL,
      ],
      variance: variances[k - 1] + variances[k],
      shared: joins ? -variances[k - 1] : 0,
      kwhSquares: after.kwhSquares - before.kwhSquares,
    });
    joins = true;
  }
  return drops;
}

interface Solved extends Omit<LineFit, 'freedom'> {
  likelihood: number;
}

/**
 * The fit with an error of energies, and the logarithm of how likely it makes the drops, whatever the line.
 * Source: restricted likelihood, Patterson and Thompson, Biometrika 58(3), 1971 (from memory).
 */
function solve(drops: readonly Drop[], energyError: number, freedom: number): Solved | null {
  // drops are made independent one after the other: Cholesky's factor of a covariance of three diagonals
  let logOf = 0;
  let before = { root: 1, y: [0, 0, 0, 0] };
  const rows: number[][] = [];
  for (const { y, variance, shared, kwhSquares } of drops) {
    const cross = shared / before.root;
    const left = variance + energyError ** 2 * kwhSquares - cross * cross;
    if (!(left > 0)) return null;
    const root = Math.sqrt(left);
    before = { root, y: y.map((value, j) => (value - cross * before.y[j]) / root) };
    rows.push(before.y);
    logOf += Math.log(root);
  }
  const sum = (i: number, j: number) => rows.reduce((total, row) => total + row[i] * row[j], 0);
  const [hh, he, ee] = [sum(1, 1), sum(1, 2), sum(2, 2)];
  const det = hh * ee - he * he;
  if (!(det > 1e-9 * hh * ee)) return null;
  const lineOf = (k: number): [number, number] => {
    const [hl, el] = [sum(1, k), sum(2, k)];
    return [(ee * hl - he * el) / det, (hh * el - he * hl) / det];
  };
  const beta = lineOf(0);
  const squares = rows.reduce((total, [l, h, e]) => total + (l - beta[0] * h - beta[1] * e) ** 2, 0);
  // errors larger than those that were reckoned with widen the interval; smaller ones are chance
  const scale = Math.max(1, squares / freedom);
  const error: [number, number] = [Math.sqrt((scale * ee) / det), Math.sqrt((scale * hh) / det)];
  return { likelihood: -logOf - squares / 2 - Math.log(det) / 2, beta, error, designed: lineOf(3) };
}
