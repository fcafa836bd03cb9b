/**
 * What a quiet step has beside the plainest one, for sites that have it: a meter that drifts, load that is shed or
 * shifted, further cabinets, the generator set's own use, overload budgets that recover, clocks. Everything is read
 * from and left in the arrays, so that the plain step keeps its locals; the arithmetic is the general step's.
 */
import type { LoopArrays, LoopInputs } from './advance.ts';
import { CAUSE_FULL } from './causes.ts';
import { readCabinets, stepCabinets } from './more-cabinets.ts';
import { recoverBudgets } from './overload.ts';
import { findForced } from './shiftable.ts';
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

/**
 * The start of a step, with s[S_E] in place: what the meter shows, loads by phase, own use, further cabinets.
 * @returns false when the step is not quiet
 */
export function startExtras(arrays: LoopArrays, inputs: LoopInputs, i: number): boolean {
  const { p, s, f, more } = arrays;
  readMeter(p, s, f);
  const onLoad = s[slot.S_GEN] === slot.GEN_ON_LOAD;
  if (fullIsDue(p, s, onLoad) || shedTurns(p, s, f)) return false;
  if (p[slot.P_SHIFTABLE] > 0) findForced(p, s, f, inputs.shiftHoursLeft, i);
  const dropped = s[slot.S_SHED] === 1 && !onLoad;
  let shed = 0;
  for (let k = 0; k < p[slot.P_PHASES]; k++) {
    const drop = dropped ? inputs.sheddableKw[k][i] : 0;
    f[slot.F_LOAD + k] = inputs.loadKw[k][i] + f[slot.F_FORCED + k] - drop;
    shed += drop;
  }
  f[slot.F_SHED_KW] = shed;
  f[slot.F_OUTSIDE] = inputs.airC[i];
  f[slot.F_SUN] = inputs.sunWPerM2[i];
  if (more.length > 0) readCabinets(p, s, f, more);
  findOwnUse(p, s, f);
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

/** The end of a step that was quiet, with s[S_E] at its end, hours of own use and battery's heat in place. */
export function endExtras({ p, s, f, t, more }: LoopArrays): void {
  const h = p[slot.P_STEP_H];
  if (f[slot.F_SHED_KW] > 0) {
    t[slot.T_SHED] += f[slot.F_SHED_KW] * h;
    t[slot.T_SHED_H] += h;
  }
  t[slot.T_OWN] += f[slot.F_OWN] * f[slot.F_CLIMATE_H];
  if (p[slot.P_OVERLOAD] > 0) recoverBudgets(p, s, h);
  runClocks(p, s);
  if (more.length > 0) stepCabinets(p, f, more);
}
