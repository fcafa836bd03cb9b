/** AC is dead: site cut off (DC side alive), or dead altogether. RULES.md, modes *off* and *dead*. */
import { chargeFromSurplus } from './flows-inverters.ts';
import * as slot from './slots.ts';

/** DC side only: the array charges the battery, standby is drawn down to the battery's own protection. */
export function flowCutOff(p: Float64Array, s: Float64Array, f: Float64Array, dt: number): void {
  flowDead(s, f);
  if (p[slot.P_CAPACITY] <= 0) return;
  const standby = p[slot.P_STANDBY];
  const arrayDc = f[slot.F_ARRAY_DC];
  if (arrayDc >= standby) {
    chargeFromSurplus(p, s, f, dt, arrayDc - standby);
    f[slot.F_STANDBY] = standby;
    f[slot.F_DC_USED] = standby + f[slot.F_CHARGE];
    return;
  }
  const e = s[slot.S_E];
  const eff = p[slot.P_DISCHARGE_EFF];
  const there = (Math.max(0, e - p[slot.P_E_EMPTY]) * eff) / dt;
  const forced = Math.min(standby - arrayDc, there);
  f[slot.F_DC_USED] = arrayDc;
  f[slot.F_STANDBY] = arrayDc + forced;
  f[slot.F_DISCHARGE] = forced;
  f[slot.F_E_NEXT] = e - (forced * dt) / eff;
}

/** Nothing flows. */
export function flowDead(s: Float64Array, f: Float64Array): void {
  f[slot.F_E_NEXT] = s[slot.S_E];
  f[slot.F_SHARE] = 0;
  f[slot.F_SHORT] = slot.SHORT_NONE;
  f[slot.F_OFFERED] = 0;
  f[slot.F_CHARGE] = 0;
  f[slot.F_DISCHARGE] = 0;
  f[slot.F_DC_USED] = 0;
  f[slot.F_AC_USED] = 0;
  f[slot.F_GEN_KW] = 0;
  f[slot.F_INV_LOSS] = 0;
  f[slot.F_CHARGER_AC] = 0;
  f[slot.F_STANDBY] = 0;
  f[slot.F_IDLE] = 0;
  f[slot.F_FROST] = 0;
}
