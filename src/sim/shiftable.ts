/** Loads that wait for surplus and must run before their deadline. RULES.md, shiftable loads. */
import { dcDrawKw, shareWithin } from './inverter.ts';
import * as slot from './slots.ts';

/** At the start of a step: a new day's energy where it falls due. @param deadlines flags per load */
export function renewShiftable(
  p: Float64Array,
  s: Float64Array,
  t: Float64Array,
  deadlines: readonly Uint8Array[],
  i: number,
): void {
  for (let j = 0; j < p[slot.P_SHIFTABLE]; j++) {
    if (deadlines[j][i] === 0) continue;
    t[slot.T_SHIFT_MISSED] += s[slot.S_SHIFT_LEFT + j];
    s[slot.S_SHIFT_LEFT + j] = p[slot.P_SHIFT_DAILY + j];
  }
}

/**
 * What cannot wait any longer, by phase; nothing is used up before `useForced`.
 * @param hoursLeft hours to each load's next deadline at the start of every step
 */
export function findForced(
  p: Float64Array,
  s: Float64Array,
  f: Float64Array,
  hoursLeft: readonly Float64Array[],
  i: number,
): void {
  f[slot.F_FORCED] = 0;
  f[slot.F_FORCED + 1] = 0;
  f[slot.F_FORCED + 2] = 0;
  for (let j = 0; j < p[slot.P_SHIFTABLE]; j++)
    if (s[slot.S_SHIFT_LEFT + j] > slot.EPS)
      f[slot.F_FORCED + p[slot.P_SHIFT_PHASE + j]] += forcedKw(p, s, j, hoursLeft[j][i]);
}

/** Takes off what must run in this step. */
export function useForced(
  p: Float64Array,
  s: Float64Array,
  f: Float64Array,
  t: Float64Array,
  hoursLeft: readonly Float64Array[],
  i: number,
): void {
  if (f[slot.F_FORCED] + f[slot.F_FORCED + 1] + f[slot.F_FORCED + 2] === 0) return;
  const h = p[slot.P_STEP_H];
  for (let j = 0; j < p[slot.P_SHIFTABLE]; j++) {
    const kw = forcedKw(p, s, j, hoursLeft[j][i]);
    if (kw === 0) continue;
    s[slot.S_SHIFT_LEFT + j] -= kw * h;
    t[slot.T_SHIFT_FORCED] += kw * h;
  }
}

/** Power of a load whose rest fills the time after this step; 0 while it may wait. */
function forcedKw(p: Float64Array, s: Float64Array, j: number, hoursLeft: number): number {
  const h = p[slot.P_STEP_H];
  const left = s[slot.S_SHIFT_LEFT + j];
  const kw = p[slot.P_SHIFT_KW + j];
  return left > slot.EPS && left >= kw * (hoursLeft - h) - slot.EPS ? Math.min(kw, left / h) : 0;
}

/** Below this much a surplus is none [kW]. */
export const LEAST_SURPLUS_KW = 1e-9;

/**
 * Surplus of a segment in which inverters carry everything: array power that the battery did not take, first from
 * the AC side of the load's phase, then from the DC side through its inverter.
 */
export function runOnSurplus(p: Float64Array, s: Float64Array, f: Float64Array, dt: number): void {
  f[slot.F_SHIFTED] = 0;
  if (f[slot.F_SHORT] !== slot.SHORT_NONE || f[slot.F_OFFERED] <= 0) return;
  const chargers = f[slot.F_SURPLUS];
  const inChargers = chargers > 0 ? f[slot.F_CHARGER_AC] / chargers : 0;
  for (let k = 0; k < p[slot.P_PHASES]; k++) {
    const surplus = f[slot.F_ARRAY_LEFT + k];
    f[slot.F_ARRAY_LEFT + k] = surplus - Math.min(surplus, f[slot.F_CHARGER_LIMIT + k]) * inChargers;
    f[slot.F_THROUGH + k] = 0;
  }
  for (let j = 0; j < p[slot.P_SHIFTABLE]; j++) {
    const left = s[slot.S_SHIFT_LEFT + j];
    const k = p[slot.P_SHIFT_PHASE + j];
    if (left <= slot.EPS || s[slot.S_TRIP + k] > slot.EPS) continue;
    const most = Math.min(p[slot.P_SHIFT_KW + j], left / dt);
    const direct = Math.min(most, atLeast(f[slot.F_ARRAY_LEFT + k]));
    const through = throughInverter(p, f, k, most - direct);
    f[slot.F_ARRAY_LEFT + k] -= direct;
    f[slot.F_AC_USED] += direct;
    s[slot.S_SHIFT_LEFT + j] = Math.max(0, left - (direct + through) * dt);
    f[slot.F_SHIFTED] += direct + through;
  }
}

/** AC power for a shiftable load from the DC array's surplus [kW], booked as used. */
function throughInverter(p: Float64Array, f: Float64Array, k: number, wanted: number): number {
  const surplus = atLeast(f[slot.F_ARRAY_DC] - f[slot.F_DC_USED]);
  const carried = f[slot.F_CARRIED + k] + f[slot.F_THROUGH + k];
  const most = Math.min(wanted, f[slot.F_INV_LIMIT + k] - carried);
  if (surplus === 0 || most <= 0) return 0;
  const linear = p[slot.P_LOSS_LINEAR];
  const quadratic = p[slot.P_LOSS_QUADRATIC];
  // the loss grows from where the inverter is: linear and 2·carried·quadratic act as one linear term
  const slope = linear + 2 * quadratic * carried;
  const kw = most * shareWithin(surplus, most, most * most, slope, quadratic);
  const draw = dcDrawKw(kw, slope, quadratic);
  f[slot.F_THROUGH + k] += kw;
  f[slot.F_DC_USED] += draw;
  f[slot.F_INV_LOSS] += draw - kw;
  return kw;
}

function atLeast(surplusKw: number): number {
  return surplusKw > LEAST_SURPLUS_KW ? surplusKw : 0;
}
