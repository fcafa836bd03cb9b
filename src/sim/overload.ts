/** Short overloads: a budget per phase that load above the rating drains and rest gives back. RULES.md, overloads. */
import * as slot from './slots.ts';

/** What an inverter may carry in this segment: its rating, or more while the budget lasts [kW]. */
export function setCarryLimits(p: Float64Array, s: Float64Array, f: Float64Array): void {
  for (let k = 0; k < p[slot.P_PHASES]; k++) {
    const rating = f[slot.F_INV_LIMIT + k];
    const fresh = p[slot.P_OVERLOAD] > 0 && s[slot.S_SPENT + k] === 0;
    f[slot.F_CARRY + k] = fresh ? rating * p[slot.P_OVERLOAD] : rating;
  }
}

/** How fast each budget drains in this segment [1/h]; none where the rating is not passed. */
export function findDrains(p: Float64Array, f: Float64Array, byInverters: boolean): void {
  for (let k = 0; k < p[slot.P_PHASES]; k++) {
    const rating = f[slot.F_INV_LIMIT + k];
    const over = byInverters && rating > 0 ? f[slot.F_CARRIED + k] - rating : 0;
    f[slot.F_DRAIN + k] = over > slot.EPS ? (over / rating) * p[slot.P_OVERLOAD_DRAIN] : 0;
  }
}

/** Cuts a segment where a budget is used up. */
export function cutToBudgets(p: Float64Array, s: Float64Array, f: Float64Array, dt: number): number {
  let cut = dt;
  for (let k = 0; k < p[slot.P_PHASES]; k++) {
    const drain = f[slot.F_DRAIN + k];
    if (drain > 0 && s[slot.S_BUDGET + k] < drain * cut) cut = s[slot.S_BUDGET + k] / drain;
  }
  return cut;
}

/** Budgets at the end of a segment, and the energy above the rating. A used-up one waits until it is fresh again. */
export function drainBudgets(
  p: Float64Array,
  s: Float64Array,
  f: Float64Array,
  t: Float64Array,
  dt: number,
): void {
  for (let k = 0; k < p[slot.P_PHASES]; k++) {
    const drain = f[slot.F_DRAIN + k];
    if (drain > 0) {
      s[slot.S_BUDGET + k] = Math.max(0, s[slot.S_BUDGET + k] - drain * dt);
      if (s[slot.S_BUDGET + k] <= slot.EPS) s[slot.S_SPENT + k] = 1;
      t[slot.T_OVERLOAD] += f[slot.F_SHARE] * (f[slot.F_CARRIED + k] - f[slot.F_INV_LIMIT + k]) * dt;
    } else recoverBudget(p, s, k, dt);
  }
}

/** All budgets after a stretch without overload. */
export function recoverBudgets(p: Float64Array, s: Float64Array, dt: number): void {
  for (let k = 0; k < p[slot.P_PHASES]; k++) recoverBudget(p, s, k, dt);
}

function recoverBudget(p: Float64Array, s: Float64Array, k: number, dt: number): void {
  s[slot.S_BUDGET + k] = Math.min(1, s[slot.S_BUDGET + k] + dt * p[slot.P_OVERLOAD_RECOVERY]);
  if (s[slot.S_BUDGET + k] >= 1) s[slot.S_SPENT + k] = 0;
}
