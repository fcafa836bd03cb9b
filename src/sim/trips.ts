/**
 * An overload that neither the short-overload budget nor shedding takes up switches a phase off, or all of them, for
 * a time; trips in a row lock the inverters out. RULES.md section 5, item 2.
 */
import { assistLimitKw, findGeneratorNeeds } from './flows-generator.ts';
import { findInverterNeeds } from './flows-inverters.ts';
import { callPerson } from './people.ts';
import { dropForOverload } from './shedding.ts';
import * as slot from './slots.ts';

/** Inverters form the grid: load is dropped, then phases trip, above a phase's limit or the battery's power limit. */
export function settleOverload(p: Float64Array, s: Float64Array, f: Float64Array, t: Float64Array): void {
  if (isOverloaded(p, s, f) && dropForOverload(p, s, f)) findInverterNeeds(p, s, f);
  if (p[slot.P_TRIP_RULE] === 0) return;
  if (tripPhases(p, s, f, t, false)) findInverterNeeds(p, s, f);
  if (!isBatteryOverloaded(p, f) || allTripped(p, s)) return;
  tripAll(p, s, t);
  findInverterNeeds(p, s, f);
}

function isOverloaded(p: Float64Array, s: Float64Array, f: Float64Array): boolean {
  for (let k = 0; k < p[slot.P_PHASES]; k++) if (isOver(s, f, k, f[slot.F_CARRY + k])) return true;
  return isBatteryOverloaded(p, f);
}

function isBatteryOverloaded(p: Float64Array, f: Float64Array): boolean {
  const standing = f[slot.F_IDLE_NOW] + p[slot.P_STANDBY];
  const supply = f[slot.F_ARRAY_DC] + p[slot.P_CHARGER_EFF] * f[slot.F_SURPLUS];
  return standing + f[slot.F_DRAW] - supply > p[slot.P_DISCHARGE_KW] + slot.EPS;
}

/** A phase whose inverters are all out of service carries nothing, which is no trip; in bypass one that the set lacks. */
function isOver(s: Float64Array, f: Float64Array, k: number, limit: number): boolean {
  const inService = f[slot.F_UNITS + k] > 0 || (f[slot.F_BYPASS] === 1 && f[slot.F_CAP + k] > 0);
  return inService && s[slot.S_TRIP + k] <= slot.EPS && f[slot.F_DEFICIT + k] > limit + slot.EPS;
}

function allTripped(p: Float64Array, s: Float64Array): boolean {
  for (let k = 0; k < p[slot.P_PHASES]; k++) if (s[slot.S_TRIP + k] <= slot.EPS) return false;
  return true;
}

/** Trips with the generator on load: a phase above the generator's cap and the battery's help. */
export function tripOnLoad(p: Float64Array, s: Float64Array, f: Float64Array, t: Float64Array): void {
  if (tripPhases(p, s, f, t, true)) findGeneratorNeeds(p, s, f);
}

function tripPhases(
  p: Float64Array,
  s: Float64Array,
  f: Float64Array,
  t: Float64Array,
  onLoad: boolean,
): boolean {
  let tripped = false;
  for (let k = 0; k < p[slot.P_PHASES]; k++) {
    if (!isOver(s, f, k, onLoad ? assistLimitKw(p, f, k) : f[slot.F_CARRY + k])) continue;
    tripped = true;
    if (p[slot.P_TRIP_ALL] === 1) {
      tripAll(p, s, t);
      break;
    }
    s[slot.S_TRIP + k] = p[slot.P_RESTART];
    countTrip(p, s, t);
  }
  return tripped;
}

function tripAll(p: Float64Array, s: Float64Array, t: Float64Array): void {
  for (let k = 0; k < p[slot.P_PHASES]; k++)
    if (s[slot.S_LOCKED] === 0) s[slot.S_TRIP + k] = p[slot.P_RESTART];
  countTrip(p, s, t);
}

/** After so many trips in a row the inverters stay off until somebody comes. */
function countTrip(p: Float64Array, s: Float64Array, t: Float64Array): void {
  t[slot.T_TRIPS] += 1;
  if (p[slot.P_LOCK_TRIPS] === 0) return;
  const inRow = s[slot.S_SINCE_TRIP] <= p[slot.P_LOCK_WITHIN] + slot.EPS;
  s[slot.S_TRIPS_IN_ROW] = inRow ? s[slot.S_TRIPS_IN_ROW] + 1 : 1;
  s[slot.S_SINCE_TRIP] = 0;
  if (s[slot.S_TRIPS_IN_ROW] < p[slot.P_LOCK_TRIPS] || s[slot.S_LOCKED] === 1) return;
  for (let k = 0; k < p[slot.P_PHASES]; k++) s[slot.S_TRIP + k] = Number.POSITIVE_INFINITY;
  s[slot.S_LOCKED] = 1;
  t[slot.T_LOCKS] += 1;
  callPerson(p, s);
}
