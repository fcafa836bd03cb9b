/** An overload switches a phase off, or all of them, for a time. RULES.md section 5, item 2. */
import { findGeneratorNeeds } from './flows-generator.ts';
import { findInverterNeeds } from './flows-inverters.ts';
import * as slot from './slots.ts';

/** Trips while inverters form the grid: a phase above its limit, or the battery's power limit exceeded. */
export function tripInverters(p: Float64Array, s: Float64Array, f: Float64Array, t: Float64Array): void {
  if (tripPhases(p, s, f, t, f[slot.F_INV_LIMIT])) findInverterNeeds(p, s, f);
  const standing = p[slot.P_IDLE] + p[slot.P_STANDBY];
  const supply = f[slot.F_ARRAY_DC] + p[slot.P_CHARGER_EFF] * f[slot.F_SURPLUS];
  if (standing + f[slot.F_DRAW] - supply <= p[slot.P_DISCHARGE_KW] + slot.EPS) return;
  if (allTripped(p, s)) return;
  tripAll(p, s, t);
  findInverterNeeds(p, s, f);
}

function allTripped(p: Float64Array, s: Float64Array): boolean {
  for (let k = 0; k < p[slot.P_PHASES]; k++) if (s[slot.S_TRIP + k] <= slot.EPS) return false;
  return true;
}

/** Trips with the generator on load: a phase above the generator's cap and the battery's help. */
export function tripOnLoad(p: Float64Array, s: Float64Array, f: Float64Array, t: Float64Array): void {
  const limit = p[slot.P_ASSIST] === 1 ? f[slot.F_INV_LIMIT] : 0;
  if (tripPhases(p, s, f, t, limit)) findGeneratorNeeds(p, s, f);
}

function tripPhases(
  p: Float64Array,
  s: Float64Array,
  f: Float64Array,
  t: Float64Array,
  limit: number,
): boolean {
  let tripped = false;
  for (let k = 0; k < p[slot.P_PHASES]; k++) {
    if (f[slot.F_DEFICIT + k] <= limit + slot.EPS) continue;
    tripped = true;
    if (p[slot.P_TRIP_ALL] === 1) {
      tripAll(p, s, t);
      break;
    }
    s[slot.S_TRIP + k] = p[slot.P_RESTART];
    t[slot.T_TRIPS] += 1;
  }
  return tripped;
}

function tripAll(p: Float64Array, s: Float64Array, t: Float64Array): void {
  for (let k = 0; k < p[slot.P_PHASES]; k++) s[slot.S_TRIP + k] = p[slot.P_RESTART];
  t[slot.T_TRIPS] += 1;
}
