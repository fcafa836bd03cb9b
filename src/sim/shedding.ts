/** Load that is dropped on purpose when charge is low or an overload leaves no other way. RULES.md, shedding. */
import * as slot from './slots.ts';

/** At the start of a step: by what the meter of charge shows. */
export function latchShedding(p: Float64Array, s: Float64Array, f: Float64Array): void {
  const shown = f[slot.F_SHOWN_E];
  if (shown <= p[slot.P_SHED_BELOW_E] + slot.EPS) s[slot.S_SHED] = 1;
  else if (shown >= p[slot.P_SHED_ABOVE_E] - slot.EPS) s[slot.S_SHED] = 0;
}

function isShed(s: Float64Array): boolean {
  if (s[slot.S_GEN] === slot.GEN_ON_LOAD) return false;
  return s[slot.S_SHED] === 1 || s[slot.S_SHED_TIMER] > slot.EPS;
}

/** Load of each phase as it is now, with what is dropped taken off. */
export function applyShedding(p: Float64Array, s: Float64Array, f: Float64Array): void {
  const shed = p[slot.P_SHED_RULE] === 1 && isShed(s);
  const own = f[slot.F_CLIMATE] / p[slot.P_PHASES];
  let dropped = 0;
  for (let k = 0; k < p[slot.P_PHASES]; k++) {
    const drop = shed ? f[slot.F_SHEDDABLE + k] : 0;
    const load = f[slot.F_FULL_LOAD + k] - drop;
    f[slot.F_LOAD + k] = load;
    f[slot.F_WANT + k] = load + own;
    dropped += drop;
  }
  f[slot.F_SHED_KW] = dropped;
}

/** Drops load for a while because of an overload. @returns false when there is nothing left to drop */
export function dropForOverload(p: Float64Array, s: Float64Array, f: Float64Array): boolean {
  if (p[slot.P_SHED_RULE] === 0 || isShed(s)) return false;
  let sheddable = 0;
  for (let k = 0; k < p[slot.P_PHASES]; k++) sheddable += f[slot.F_SHEDDABLE + k];
  if (sheddable <= slot.EPS) return false;
  s[slot.S_SHED_TIMER] = p[slot.P_SHED_OVERLOAD];
  applyShedding(p, s, f);
  return true;
}
