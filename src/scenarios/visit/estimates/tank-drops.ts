import type { Rest } from './tank-rests.ts';

/** What a step's reading of energy may err by, as litres per kWh of the step: the likeliest of these is taken. */
const ENERGY_ERRORS = [0, 0.001, 0.002, 0.003, 0.004, 0.006, 0.008, 0.012];
const LEAST_FREEDOM = 3;

/** How far the tank fell from one standstill to the next. */
interface Drop {
  /** litres, hours run, kWh */
  y: [number, number, number];
  /** variance of the two levels, and what they share with the drop before (0: nothing) */
  variance: number;
  shared: number;
  kwhSquares: number;
}

export interface LineFit {
  /** L/h at no load, L/kWh more */
  beta: [number, number];
  error: [number, number];
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
  let best: { likelihood: number; fit: LineFit } | null = null;
  for (const energyError of ENERGY_ERRORS) {
    const solved = solve(drops, energyError, freedom);
    if (solved !== null && (best === null || solved.likelihood > best.likelihood)) best = solved;
  }
  return best?.fit ?? null;
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
      y: [before.meanL - after.meanL, after.runH - before.runH, after.kwh - before.kwh],
      variance: variances[k - 1] + variances[k],
      shared: joins ? -variances[k - 1] : 0,
      kwhSquares: after.kwhSquares - before.kwhSquares,
    });
    joins = true;
  }
  return drops;
}

/**
 * Variance that rounding leaves in a mean of many readings that tremble by chance: the more they do, the less. First
 * term of the Fourier series of the rounding error. Source: Widrow, Kollar and Liu, IEEE Trans. Instrumentation and
 * Measurement 45(2), 1996 (from memory).
 */
function roundingLeft(spread: number, quantum: number): number {
  if (quantum === 0) return 0;
  const trembling = Math.max(0, spread - quantum ** 2 / 12) / quantum ** 2;
  return (quantum ** 2 / (2 * Math.PI ** 2)) * Math.exp(-4 * Math.PI ** 2 * trembling);
}

/** The fit with an error of energies, and how likely it makes the drops. */
function solve(
  drops: readonly Drop[],
  energyError: number,
  freedom: number,
): { likelihood: number; fit: LineFit } | null {
  // drops are made independent one after the other: Cholesky's factor of a covariance of three diagonals
  let logOf = 0;
  let before = { root: 1, y: [0, 0, 0] };
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
  const [hh, he, ee, hl, el] = [sum(1, 1), sum(1, 2), sum(2, 2), sum(1, 0), sum(2, 0)];
  const det = hh * ee - he * he;
  if (!(det > 1e-9 * hh * ee)) return null;
  const beta: [number, number] = [(ee * hl - he * el) / det, (hh * el - he * hl) / det];
  const squares = rows.reduce((total, [l, h, e]) => total + (l - beta[0] * h - beta[1] * e) ** 2, 0);
  // errors larger than those that were reckoned with widen the interval; smaller ones are chance
  const scale = Math.max(1, squares / freedom);
  const error: [number, number] = [Math.sqrt((scale * ee) / det), Math.sqrt((scale * hh) / det)];
  return { likelihood: -logOf - squares / 2, fit: { beta, error, freedom } };
}
