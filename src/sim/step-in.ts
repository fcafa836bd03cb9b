/** This step's series, flags and limits by phase. */
import type { LoopInputs } from './advance.ts';
import { applyShedding, latchShedding } from './shedding.ts';
import { findForced, renewShiftable, useForced } from './shiftable.ts';
import * as slot from './slots.ts';

/** Flags of the step that decisions go by. */
export function readFlags(f: Float64Array, inputs: LoopInputs, i: number): void {
  f[slot.F_RESTRICTED] = inputs.restricted[i];
  f[slot.F_NIGHT] = inputs.night[i];
  f[slot.F_ATTENDED] = inputs.attended[i];
  f[slot.F_OUT_OF_ORDER] = inputs.outOfOrder[i];
  f[slot.F_BYPASS] = inputs.bypass[i];
  f[slot.F_WINDOW] = inputs.runWindow[i];
  f[slot.F_OUTSIDE] = inputs.airC[i];
  f[slot.F_SUN] = inputs.sunWPerM2[i];
}

/** Power of the generator set's own charger, controller and block heater [kW]. */
export function findOwnUse(p: Float64Array, s: Float64Array, f: Float64Array): void {
  const stands = s[slot.S_GEN] < slot.GEN_WARMING;
  const heats = stands && f[slot.F_OUTSIDE] < p[slot.P_BLOCK_BELOW_C];
  f[slot.F_OWN] = p[slot.P_STANDING] + (heats ? p[slot.P_BLOCK_HEATER] : 0);
}

/** Loads and arrays of the step, and what each phase can carry; sums of the step before are set to nothing. */
export function readStep(
  p: Float64Array,
  s: Float64Array,
  f: Float64Array,
  t: Float64Array,
  inputs: LoopInputs,
  i: number,
): void {
  const phases = p[slot.P_PHASES];
  const h = p[slot.P_STEP_H];
  const arrayAc = inputs.acArrayKw[i];
  if (p[slot.P_SHIFTABLE] > 0) {
    renewShiftable(p, s, t, inputs.shiftDeadline, i);
    findForced(p, s, f, inputs.shiftHoursLeft, i);
    useForced(p, s, f, t, inputs.shiftHoursLeft, i);
  }
  for (let k = 0; k < phases; k++) {
    f[slot.F_FULL_LOAD + k] = inputs.loadKw[k][i] + f[slot.F_FORCED + k];
    f[slot.F_SHEDDABLE + k] = inputs.sheddableKw[k][i];
    t[slot.T_LOAD] += inputs.loadKw[k][i] * h;
    f[slot.F_ARRAY_AC + k] = arrayAc * p[slot.P_SHARE + k];
  }
  readUnits(p, f, inputs, i);
  if (p[slot.P_SHED_RULE] === 1) latchShedding(p, s, f);
  applyShedding(p, s, f);
  f[slot.F_ARRAY_DC] = inputs.dcArrayKw[i];
  f[slot.F_ARRAY_AC_ALL] = arrayAc;
  t[slot.T_DC_POTENTIAL] += f[slot.F_ARRAY_DC] * h;
  t[slot.T_AC_POTENTIAL] += arrayAc * h;
  for (let j = slot.F_HEAT_AIR_KWH; j <= slot.F_STEP_RAN; j++) f[j] = 0;
}

/** Inverter units in service: limits and idle draw, and the generator's way to the board. */
function readUnits(p: Float64Array, f: Float64Array, inputs: LoopInputs, i: number): void {
  const phases = p[slot.P_PHASES];
  const bypass = f[slot.F_BYPASS] === 1;
  const derating = f[slot.F_DERATING];
  let inService = 0;
  for (let k = 0; k < phases; k++) {
    const units = bypass ? 0 : Math.max(0, 1 - inputs.unitsOut[k][i] / p[slot.P_UNITS]);
    f[slot.F_UNITS + k] = units;
    f[slot.F_INV_LIMIT + k] = p[slot.P_INV_RATED] * derating * units;
    f[slot.F_CHARGER_LIMIT + k] = p[slot.P_CHARGER] * derating * units;
    if (units === 0) f[slot.F_ARRAY_AC + k] = 0;
    inService += units;
  }
  f[slot.F_IDLE_NOW] = inService === phases ? p[slot.P_IDLE] : (p[slot.P_IDLE] / phases) * inService;
  findCaps(p, f);
}

/** What the generator set in use may give each phase, by its rating and the inverter units in its way [kW]. */
export function findCaps(p: Float64Array, f: Float64Array): void {
  for (let k = 0; k < p[slot.P_PHASES]; k++) {
    const genKw = p[slot.P_GEN_PHASE_KW + k];
    const passed = p[slot.P_AC_INPUT] * f[slot.F_UNITS + k];
    f[slot.F_CAP + k] = f[slot.F_BYPASS] === 1 ? genKw : Math.min(genKw, passed);
  }
}
