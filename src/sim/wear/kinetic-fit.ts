import { decayedShare } from '../exp.ts';
import { kineticCapacityKwh } from './kinetic-battery.ts';

/** A kinetic battery fitted to what a bank gives in some discharge times. */
export interface KineticFit {
  /** both wells together when full, in the unit of the capacities that were given */
  capacity: number;
  /** share at hand when at rest */
  atHandFrac: number;
  ratePerH: number;
  /** largest relative miss of a given capacity, and the discharge time where it is [h] */
  worst: number;
  worstHours: number;
}

/** The share at hand is kept within these, as where it is given. */
const LEAST_AT_HAND = 0.05;
const MOST_AT_HAND = 0.95;
const LEAST_RATE_PER_H = 0.001;
const MOST_RATE_PER_H = 20;
const GRID_RATIO = 1.05;
const GOLDEN = 0.6180339887498949;
const NARROWINGS = 80;

/**
 * The kinetic battery that meets a table of discharge times best: least squares of the relative misses.
 * The model says T/C(T) = a·(1 − e) + b·(kT − 1 + e) with e = exp(−kT), a = 1/(Q·k·c) and b = 1/(Q·k): for any rate
 * constant k the other two follow by linear least squares, so that only k has to be searched for.
 * @param hours      discharge times [h], > 0, at least three different ones
 * @param capacities what a full bank gives in each, > 0
 * Source: the model's capacity at constant current, Manwell and McGowan 1993; search by golden section.
 */
export function fitKinetic(hours: readonly number[], capacities: readonly number[]): KineticFit {
  let best = LEAST_RATE_PER_H;
  let least = Number.POSITIVE_INFINITY;
  for (let k = LEAST_RATE_PER_H; k <= MOST_RATE_PER_H; k *= GRID_RATIO) {
    const { squares } = wellsAt(k, hours, capacities);
    if (squares < least) [best, least] = [k, squares];
  }
  let low = Math.max(LEAST_RATE_PER_H, best / GRID_RATIO);
  let high = Math.min(MOST_RATE_PER_H, best * GRID_RATIO);
  for (let i = 0; i < NARROWINGS; i++) {
    const left = high - GOLDEN * (high - low);
    const right = low + GOLDEN * (high - low);
    if (wellsAt(left, hours, capacities).squares <= wellsAt(right, hours, capacities).squares) high = right;
    else low = left;
  }
  const ratePerH = (low + high) / 2;
  const { atHandFrac, capacity } = wellsAt(ratePerH, hours, capacities);
  const misses = hours.map((time, i) =>
    Math.abs(kineticCapacityKwh(capacity, time, atHandFrac, ratePerH) / capacities[i] - 1),
  );
  const worst = misses.reduce((most, miss) => Math.max(most, miss));
  return { capacity, atHandFrac, ratePerH, worst, worstHours: hours[misses.indexOf(worst)] };
}

/** The best wells for a rate constant, and what is left of the misses. */
function wellsAt(k: number, hours: readonly number[], capacities: readonly number[]) {
  const weights = hours.map((time, i) => capacities[i] / time);
  const u = hours.map((time, i) => decayedShare(k * time) * weights[i]);
  const v = hours.map((time, i) => (k * time - decayedShare(k * time)) * weights[i]);
  const dot = (x: readonly number[], y: readonly number[]) =>
    x.reduce((sum, value, i) => sum + value * y[i], 0);
  const ones = hours.map(() => 1);
  const [uu, uv, vv, u1, v1] = [dot(u, u), dot(u, v), dot(v, v), dot(u, ones), dot(v, ones)];
  const atHandFrac = shareAtHand(
    (vv * u1 - uv * v1) / (uu * vv - uv * uv),
    (uu * v1 - uv * u1) / (uu * vv - uv * uv),
  );
  // b once more, for that share: the same again unless a bound holds it
  const w = u.map((value, i) => value / atHandFrac + v[i]);
  const b = dot(w, ones) / dot(w, w);
  const squares = w.reduce((sum, value) => sum + (b * value - 1) * (b * value - 1), 0);
  return { atHandFrac, capacity: 1 / (b * k), squares };
}

/** c = b/a within its bounds; a share of all where the table wants no second well. */
function shareAtHand(a: number, b: number): number {
  if (!(a > 0)) return MOST_AT_HAND;
  return Math.min(MOST_AT_HAND, Math.max(LEAST_AT_HAND, b / a));
}
