/** The inverters form the grid: generator not on load, site on, a battery there. RULES.md, mode *inverters*. */
import { storedAfterCharge } from './battery.ts';
import { dcDrawKw, shareWithin } from './inverter.ts';
import * as slot from './slots.ts';
import { mostFromWells, mostIntoWells } from './wells.ts';

/** Per phase: what is wanted beyond the array, what of it the inverter may carry, and the array's surplus. */
export function findInverterNeeds(p: Float64Array, s: Float64Array, f: Float64Array): void {
  const linear = p[slot.P_LOSS_LINEAR];
  const quadratic = p[slot.P_LOSS_QUADRATIC];
  const arrayWaits = s[slot.S_AC_WAIT] > slot.EPS;
  let draw = 0;
  let surplus = 0;
  let direct = 0;
  for (let k = 0; k < p[slot.P_PHASES]; k++) {
    const tripped = s[slot.S_TRIP + k] > slot.EPS;
    const want = tripped ? 0 : f[slot.F_WANT + k];
    const array = tripped || arrayWaits ? 0 : f[slot.F_ARRAY_AC + k];
    const deficit = Math.max(0, want - array);
    const carried = Math.min(deficit, f[slot.F_CARRY + k]);
    const left = Math.max(0, array - want);
    f[slot.F_DEFICIT + k] = deficit;
    f[slot.F_CARRIED + k] = carried;
    draw += dcDrawKw(carried, linear, quadratic);
    f[slot.F_ARRAY_LEFT + k] = left;
    surplus += Math.min(left, f[slot.F_CHARGER_LIMIT + k]);
    direct += Math.min(want, array);
  }
  f[slot.F_DRAW] = draw;
  f[slot.F_SURPLUS] = surplus;
  f[slot.F_AC_DIRECT] = direct;
}

/** Flows of a segment of `dt` hours, from the needs just found. */
export function flowFromInverters(p: Float64Array, s: Float64Array, f: Float64Array, dt: number): void {
  const standby = p[slot.P_STANDBY];
  const idle = f[slot.F_IDLE_NOW];
  const draw = f[slot.F_DRAW];
  const needed = idle + standby + draw;
  const arrayDc = f[slot.F_ARRAY_DC];
  const chargerEff = p[slot.P_CHARGER_EFF];
  const supply = arrayDc + chargerEff * f[slot.F_SURPLUS];
  f[slot.F_GEN_KW] = 0;
  f[slot.F_SHARE] = 1;
  f[slot.F_SHORT] = slot.SHORT_NONE;
  f[slot.F_STANDBY] = standby;
  f[slot.F_IDLE] = idle;
  f[slot.F_INV_LOSS] = draw - carriedSum(f);
  if (supply >= needed) {
    chargeFromSurplus(p, s, f, dt, supply - needed);
    const used = Math.min(arrayDc, needed + f[slot.F_CHARGE]);
    const chargerAc = (needed + f[slot.F_CHARGE] - used) / chargerEff;
    f[slot.F_DC_USED] = used;
    f[slot.F_CHARGER_AC] = chargerAc;
    f[slot.F_AC_USED] = f[slot.F_AC_DIRECT] + chargerAc;
    return;
  }
  f[slot.F_OFFERED] = 0;
  f[slot.F_CHARGE] = 0;
  f[slot.F_FROST] = 0;
  f[slot.F_DC_USED] = arrayDc;
  f[slot.F_CHARGER_AC] = f[slot.F_SURPLUS];
  f[slot.F_AC_USED] = f[slot.F_AC_DIRECT] + f[slot.F_SURPLUS];
  dischargeFor(p, s, f, dt, supply, needed);
}

/** Offers a surplus to the battery: charge, stored energy after, and what frost refused. */
export function chargeFromSurplus(
  p: Float64Array,
  s: Float64Array,
  f: Float64Array,
  dt: number,
  offered: number,
): void {
  const e = s[slot.S_E];
  f[slot.F_OFFERED] = offered;
  f[slot.F_DISCHARGE] = 0;
  const most =
    p[slot.P_KINETIC] === 1 ? mostIntoWells(p, s, dt) / p[slot.P_CHARGE_EFF] : Number.POSITIVE_INFINITY;
  const next = storedAt(p, e, Math.min(offered, most), f[slot.F_CHARGE_LIMIT], dt);
  f[slot.F_E_NEXT] = next;
  const perKwh = 1 / (p[slot.P_CHARGE_EFF] * dt);
  // no battery has no charge efficiency either
  f[slot.F_CHARGE] = next === e ? 0 : Math.min(offered, (next - e) * perKwh);
  f[slot.F_FROST] = 0;
  if (f[slot.F_CHARGE_FACTOR] < 1 && offered > 0 && p[slot.P_CAPACITY] > 0) {
    const warm = storedAt(p, e, Math.min(offered, most), p[slot.P_CHARGE_KW], dt);
    f[slot.F_FROST] = (warm - e) * perKwh - f[slot.F_CHARGE];
  }
}

function storedAt(p: Float64Array, e: number, offered: number, limit: number, dt: number): number {
  return storedAfterCharge(
    e,
    offered,
    limit,
    dt,
    p[slot.P_CHARGE_EFF],
    p[slot.P_E_TAPER],
    p[slot.P_TAPER_SLOPE],
    p[slot.P_CAPACITY],
  );
}

/**
 * Covers DC needs beyond the supply from the battery, within its power and its energy above the cut-off.
 * Short of either, loads shrink by one factor; idle and standby come first, and standby may be drawn below
 * the cut-off (forced) until the battery's own protection opens.
 */
export function dischargeFor(
  p: Float64Array,
  s: Float64Array,
  f: Float64Array,
  dt: number,
  supply: number,
  needed: number,
): void {
  const e = s[slot.S_E];
  const eff = p[slot.P_DISCHARGE_EFF];
  let fromEnergy = (Math.max(0, e - p[slot.P_E_CUTOFF]) * eff) / dt;
  if (p[slot.P_KINETIC] === 1) fromEnergy = Math.min(fromEnergy, mostFromWells(p, s, dt) * eff);
  const cap = Math.min(p[slot.P_DISCHARGE_KW], fromEnergy);
  const gap = needed - supply;
  if (gap <= cap + 1e-12) {
    f[slot.F_DISCHARGE] = gap;
    f[slot.F_E_NEXT] = p[slot.P_CAPACITY] > 0 ? e - (gap * dt) / eff : 0;
    return;
  }
  f[slot.F_SHORT] = fromEnergy < p[slot.P_DISCHARGE_KW] ? slot.SHORT_ENERGY : slot.SHORT_POWER;
  const there = supply + cap;
  shrinkLoads(p, f, there - f[slot.F_STANDBY] - f[slot.F_IDLE]);
  const left = p[slot.P_CAPACITY] > 0 ? e - (cap * dt) / eff : 0;
  let forced = 0;
  if (there < f[slot.F_STANDBY] + f[slot.F_IDLE]) {
    const standby = f[slot.F_STANDBY];
    const below = p[slot.P_CAPACITY] > 0 ? (Math.max(0, left - p[slot.P_E_EMPTY]) * eff) / dt : 0;
    forced = Math.min(Math.max(0, standby - there), below);
    f[slot.F_STANDBY] = Math.min(standby, there + forced);
    f[slot.F_IDLE] = Math.max(0, there - standby);
  }
  f[slot.F_DISCHARGE] = cap + forced;
  f[slot.F_E_NEXT] = forced > 0 ? left - (forced * dt) / eff : left;
}

/** The factor by which carried loads shrink to fit the DC power there is, and the loss that goes with it. */
function shrinkLoads(p: Float64Array, f: Float64Array, available: number): void {
  let sum = 0;
  let squares = 0;
  for (let k = 0; k < p[slot.P_PHASES]; k++) {
    const carried = f[slot.F_CARRIED + k];
    sum += carried;
    squares += carried * carried;
  }
  const linear = p[slot.P_LOSS_LINEAR];
  const quadratic = p[slot.P_LOSS_QUADRATIC];
  const share = sum > 0 ? shareWithin(available, sum, squares, linear, quadratic) : available >= 0 ? 1 : 0;
  f[slot.F_SHARE] = share;
  f[slot.F_INV_LOSS] = linear * sum * share + quadratic * squares * share * share;
}

function carriedSum(f: Float64Array): number {
  return f[slot.F_CARRIED] + f[slot.F_CARRIED + 1] + f[slot.F_CARRIED + 2];
}
