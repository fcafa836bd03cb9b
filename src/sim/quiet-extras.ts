/**
 * What a quiet step has beside the plainest one, for sites that have it: a meter that drifts, load that is shed or
 * shifted, further cabinets, the generator set's own use, overload budgets that recover, clocks. Everything is read
 * from and left in the arrays, so that the plain step keeps its locals; the arithmetic is the general step's.
 */
import type { LoopArrays, LoopInputs } from './advance.ts';
import { CAUSE_FULL } from './causes.ts';
import { readCabinets, stepCabinets } from './more-cabinets.ts';
import { recoverBudgets } from './overload.ts';
import { findForced, runOnSurplus, useForced } from './shiftable.ts';
import * as slot from './slots.ts';
import { readMeter, runClocks } from './step-clock.ts';
import { findOwnUse } from './step-in.ts';

/** Whether a site has any of it. */
export function hasExtras(p: Float64Array, s: Float64Array, more: Float64Array): boolean {
  const draws = p[slot.P_STANDING] + p[slot.P_BLOCK_HEATER] > 0;
  const rules = p[slot.P_SHED_RULE] + p[slot.P_FULL_RULE] + p[slot.P_EXERCISE_RULE] + p[slot.P_SHIFTABLE] > 0;
  const tired = p[slot.P_OVERLOAD] > 0 && s[slot.S_BUDGET] + s[slot.S_BUDGET + 1] + s[slot.S_BUDGET + 2] < 3;
  return draws || rules || tired || more.length > 0 || p[slot.P_DRIFT] !== 0;
}

/** What of a step is asked for. */
export const AT_START = 0;
export const ON_SURPLUS = 1;
export const AT_END = 2;

/**
 * One part of a quiet step. A single function for all three, too large to be inlined: the optimiser would else spend
 * on it what the plain step's helpers need.
 * AT_START, with s[S_E] in place: what the meter shows, loads by phase, own use, further cabinets.
 * ON_SURPLUS, with the flows in f: shiftable loads.
 * AT_END, with s[S_E] at the step's end, hours of own use and the battery's heat in place: clocks and temperatures.
 * @returns false when the step is not quiet
 */
export function extrasOf(arrays: LoopArrays, inputs: LoopInputs, i: number, part: number): boolean {
  const { p, s, f, t, more } = arrays;
  const onLoad = s[slot.S_GEN] === slot.GEN_ON_LOAD;
  if (part === AT_START) {
    readMeter(p, s, f);
    if (fullIsDue(p, s, onLoad) || shedTurns(p, s, f)) return false;
    f[slot.F_OUTSIDE] = inputs.airC[i];
    f[slot.F_SUN] = inputs.sunWPerM2[i];
    if (p[slot.P_SHIFTABLE] > 0) findForced(p, s, f, inputs.shiftHoursLeft, i);
    f[slot.F_SHED_KW] = 0;
    if (s[slot.S_SHED] === 1 && !onLoad) {
      for (let k = 0; k < p[slot.P_PHASES]; k++) {
        const drop = inputs.sheddableKw[k][i];
        f[slot.F_DROP + k] = drop;
        f[slot.F_SHED_KW] += drop;
      }
    } else if (f[slot.F_DROP] + f[slot.F_DROP + 1] + f[slot.F_DROP + 2] > 0) {
      for (let k = 0; k < 3; k++) f[slot.F_DROP + k] = 0;
    }
    if (more.length > 0) readCabinets(p, s, f, more);
    findOwnUse(p, s, f);
    return true;
  }
  if (part === ON_SURPLUS) {
    runOnSurplus(p, s, f, p[slot.P_STEP_H]);
    t[slot.T_SHIFTED] += f[slot.F_SHIFTED] * p[slot.P_STEP_H];
    return true;
  }
  if (p[slot.P_SHIFTABLE] > 0 && onLoad) useForced(p, s, f, t, inputs.shiftHoursLeft, i);
  if (f[slot.F_SHED_KW] > 0) {
    t[slot.T_SHED] += f[slot.F_SHED_KW] * p[slot.P_STEP_H];
    t[slot.T_SHED_H] += p[slot.P_STEP_H];
  }
  t[slot.T_OWN] += f[slot.F_OWN] * f[slot.F_CLIMATE_H];
  if (p[slot.P_OVERLOAD] > 0) recoverBudgets(p, s, p[slot.P_STEP_H]);
  runClocks(p, s);
  if (more.length > 0) stepCabinets(p, f, more);
  return true;
}

function fullIsDue(p: Float64Array, s: Float64Array, onLoad: boolean): boolean {
  if (p[slot.P_FULL_RULE] * p[slot.P_GENERATOR] === 0) return false;
  const underWay = onLoad && s[slot.S_DUTY] === CAUSE_FULL;
  return !underWay && s[slot.S_SINCE_FULL] >= p[slot.P_FULL_EVERY] - slot.EPS;
}

function shedTurns(p: Float64Array, s: Float64Array, f: Float64Array): boolean {
  if (p[slot.P_SHED_RULE] === 0) return false;
  const shown = f[slot.F_SHOWN_E];
  return s[slot.S_SHED] === 1
    ? shown >= p[slot.P_SHED_ABOVE_E] - slot.EPS
    : shown <= p[slot.P_SHED_BELOW_E] + slot.EPS;
}
