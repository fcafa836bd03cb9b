/** A second generating set takes the first one's place while that cannot run. RULES.md, the second set. */
import * as slot from './slots.ts';
import { tankHasFuel } from './tank.ts';

/** True when the first set cannot run: locked out, out of order, to be bled, or without fuel. */
export function firstSetIsOut(p: Float64Array, s: Float64Array, f: Float64Array): boolean {
  return (
    s[slot.S_FAILED] === 1 || f[slot.F_OUT_OF_ORDER] === 1 || s[slot.S_UNBLED] === 1 || !tankHasFuel(p, s)
  );
}

/** At the start of a step, with the engine at rest and somebody there, sets are changed over. @returns whether they were */
export function chooseSet(p: Float64Array, s: Float64Array, f: Float64Array): boolean {
  if (s[slot.S_GEN] !== slot.GEN_STOPPED || f[slot.F_ATTENDED] === 0) return false;
  const out = firstSetIsOut(p, s, f);
  const connected = s[slot.S_HELD_SECOND] >= p[slot.P_SECOND_CONNECT] - slot.EPS;
  const change = s[slot.S_SECOND] === 0 ? out && connected : !out;
  if (change) changeOver(p, s);
  return change;
}

/** At the end of a step: how long the first set has been out, at the start of every step up to now. */
export function holdSecond(p: Float64Array, s: Float64Array, out: boolean): void {
  s[slot.S_HELD_SECOND] = out ? s[slot.S_HELD_SECOND] + p[slot.P_STEP_H] : 0;
}

function changeOver(p: Float64Array, s: Float64Array): void {
  s[slot.S_SECOND] = 1 - s[slot.S_SECOND];
  exchangeSets(p);
}

/** Numbers of the set in use and of the other one, exchanged. */
export function exchangeSets(p: Float64Array): void {
  for (let j = 0; j <= slot.P_BLACK_START - slot.P_GEN_RATED; j++) {
    const other = p[slot.P_OTHER_SET + j];
    p[slot.P_OTHER_SET + j] = p[slot.P_GEN_RATED + j];
    p[slot.P_GEN_RATED + j] = other;
  }
}
