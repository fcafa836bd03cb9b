/** How many cycles a battery lasts by their depth, and how much of its life a set of cycles uses up. */
import type { CycleList } from './cycle-list.ts';
import { exponential, naturalLog, powerOf } from './power.ts';

/** Cycles to failure against depth: straight lines between points in logarithms, the end ones carried on. */
export interface CycleLife {
  /** logarithms of the depths, ascending; those of the cycles; `slope[i]` holds from point i to the next */
  logDepth: Float64Array;
  logCycles: Float64Array;
  slope: Float64Array;
}

/**
 * N(d) = n1 · d^−b.
 * @param n1 cycles to failure at full depth, > 0
 * @param b  exponent, >= 0
 * Source: the form of Wöhler's curves, usual for batteries (common practice); both numbers come from the maker.
 */
export function cycleLifeByPower(n1: number, b: number): CycleLife {
  return {
    logDepth: Float64Array.of(0),
    logCycles: Float64Array.of(naturalLog(n1)),
    slope: Float64Array.of(-b),
  };
}

/**
 * From a maker's table of points.
 * @param depthFrac depths, ascending, > 0; two or more
 * @param cycles    cycles to failure at each, > 0
 * Errors: throws on fewer than two points, unequal lengths, depths that do not ascend, and numbers not above 0:
 * the site file is checked before.
 */
export function cycleLifeByPoints(depthFrac: ArrayLike<number>, cycles: ArrayLike<number>): CycleLife {
  const points = depthFrac.length;
  if (points < 2 || cycles.length !== points)
    throw new Error(`cycle life from ${points} depths and ${cycles.length} lives`);
  for (let i = 0; i < points; i++)
    if (!(depthFrac[i] > 0 && cycles[i] > 0))
      throw new Error(`cycle life: ${cycles[i]} cycles at depth ${depthFrac[i]}`);
  const logDepth = Float64Array.from(depthFrac, naturalLog);
  const logCycles = Float64Array.from(cycles, naturalLog);
  const slope = new Float64Array(points - 1);
  for (let i = 0; i < points - 1; i++) {
    slope[i] = (logCycles[i + 1] - logCycles[i]) / (logDepth[i + 1] - logDepth[i]);
    if (!(logDepth[i + 1] > logDepth[i]))
      throw new Error(`cycle life: depth ${depthFrac[i + 1]} after ${depthFrac[i]}`);
  }
  return { logDepth, logCycles, slope };
}

/**
 * Cycles to failure if all are of one depth.
 * @param depthFrac [fraction of capacity], >= 0
 * @returns > 0; Infinity at depth 0
 */
export function cyclesToFailure(life: CycleLife, depthFrac: number): number {
  if (depthFrac <= 0) return Number.POSITIVE_INFINITY;
  const logDepth = naturalLog(depthFrac);
  let i = 0;
  while (i < life.slope.length - 1 && logDepth > life.logDepth[i + 1]) i++;
  return exponential(life.logCycles[i] + life.slope[i] * (logDepth - life.logDepth[i]));
}

/**
 * Share of life used up by cycles: the sum of n/N over them. 1 is the end of life at the reference temperature.
 * Source: Palmgren and Miner's rule, M. A. Miner, Journal of Applied Mechanics 12, 1945 (from memory).
 */
export function minerSum(life: CycleLife, cycles: CycleList): number {
  const { rangeFrac, count, size } = cycles;
  let sum = 0;
  for (let i = 0; i < size; i++) sum += count[i] / cyclesToFailure(life, rangeFrac[i]);
  return sum;
}

/**
 * What is left of the cycle life at a temperature: half for every `halvingK` above the reference, all of it below.
 * @param cellC    mean cell temperature [°C]
 * @param halvingK [K], > 0; 10 is common practice, Infinity for no effect
 * @returns factor on cycles to failure, 0 to 1
 * Source: common practice (the rule of thumb from Arrhenius' law that ageing doubles every 10 K).
 */
export function lifeFactorByTemperature(cellC: number, referenceC: number, halvingK: number): number {
  return powerOf(2, -Math.max(0, cellC - referenceC) / halvingK);
}
