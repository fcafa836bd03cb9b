/** What is left behind by a step: sums for its columns, extremes, and the columns themselves. */
import type { StepColumns } from './columns.ts';
import { coldestCellC, warmestCellC } from './more-cabinets.ts';
import * as slot from './slots.ts';

/** Means over the step for its columns are summed here. */
export function sumStep(f: Float64Array, dt: number): void {
  f[slot.F_STEP_GEN] += f[slot.F_GEN_KW] * dt;
  f[slot.F_STEP_UNSERVED] += f[slot.F_UNSERVED] * dt;
  f[slot.F_STEP_DC] += f[slot.F_DC_USED] * dt;
  f[slot.F_STEP_AC] += f[slot.F_AC_USED] * dt;
  f[slot.F_STEP_BATTERY] += (f[slot.F_CHARGE] - f[slot.F_DISCHARGE]) * dt;
}

export function noteExtremes(
  p: Float64Array,
  s: Float64Array,
  f: Float64Array,
  t: Float64Array,
  x: Float64Array,
): void {
  if (p[slot.P_CAPACITY] > 0) {
    const e = s[slot.S_E];
    x[slot.X_MIN_SOC] = Math.min(x[slot.X_MIN_SOC], e / p[slot.P_CAPACITY]);
    if (e <= p[slot.P_E_CUTOFF] + slot.EPS) t[slot.T_FLOOR_H] += p[slot.P_STEP_H];
  }
  const cellC = s[slot.S_BATTERY_C];
  x[slot.X_COLDEST_CELL] = Math.min(x[slot.X_COLDEST_CELL], coldestCellC(p, f, cellC));
  x[slot.X_HOTTEST_CELL] = Math.max(x[slot.X_HOTTEST_CELL], warmestCellC(p, f, cellC));
  x[slot.X_HOTTEST_AIR] = Math.max(x[slot.X_HOTTEST_AIR], s[slot.S_AIR_C]);
  x[slot.X_LOWEST_TANK] = Math.min(x[slot.X_LOWEST_TANK], s[slot.S_TANK]);
}

export function writeColumns(
  p: Float64Array,
  s: Float64Array,
  f: Float64Array,
  columns: StepColumns,
  i: number,
): void {
  const perStep = 1 / p[slot.P_STEP_H];
  columns.socFrac[i] = p[slot.P_CAPACITY] > 0 ? s[slot.S_E] / p[slot.P_CAPACITY] : 0;
  columns.generatorKw[i] = f[slot.F_STEP_GEN] * perStep;
  columns.unservedKw[i] = f[slot.F_STEP_UNSERVED] * perStep;
  columns.dcUsedKw[i] = f[slot.F_STEP_DC] * perStep;
  columns.acUsedKw[i] = f[slot.F_STEP_AC] * perStep;
  columns.batteryKw[i] = f[slot.F_STEP_BATTERY] * perStep;
  columns.curtailedKw[i] =
    f[slot.F_ARRAY_DC] + f[slot.F_ARRAY_AC_ALL] - columns.dcUsedKw[i] - columns.acUsedKw[i];
  columns.cabinetC[i] = s[slot.S_AIR_C];
  columns.cellC[i] = p[slot.P_MAIN_SHARE] * s[slot.S_BATTERY_C] + f[slot.F_MEAN_MORE];
  columns.cause[i] = f[slot.F_STEP_RAN];
}
