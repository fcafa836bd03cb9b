import { batteryLossKw, MODE_ALIVE } from './book.ts';
import * as slot from './slots.ts';

/** Sources less loads, losses and what was stored: nothing when the segment's account closes. */
export function checkAccount(
  p: Float64Array,
  s: Float64Array,
  f: Float64Array,
  x: Float64Array,
  mode: number,
): void {
  let served = 0;
  if (mode === MODE_ALIVE) {
    served = f[slot.F_CLIMATE_SERVED] + f[slot.F_SHIFTED] - f[slot.F_UNSERVED];
    for (let k = 0; k < p[slot.P_PHASES]; k++) served += f[slot.F_LOAD + k];
  }
  const sources = f[slot.F_GEN_KW] + f[slot.F_DC_USED] + f[slot.F_AC_USED];
  const chargerLoss = f[slot.F_CHARGER_AC] * (1 - p[slot.P_CHARGER_EFF]);
  const standing = f[slot.F_IDLE] + f[slot.F_STANDBY];
  const losses = f[slot.F_INV_LOSS] + standing + chargerLoss + batteryLossKw(p, f);
  const residualKwh = (sources - served - losses) * f[slot.F_DT] - (f[slot.F_E_NEXT] - s[slot.S_E]);
  x[slot.X_RESIDUAL] = Math.max(x[slot.X_RESIDUAL], Math.abs(residualKwh));
}
