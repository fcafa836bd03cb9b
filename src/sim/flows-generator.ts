/** The generator forms the grid. RULES.md, mode *generator*. */
import { CAUSE_PEAK } from './causes.ts';
import { chargeFromSurplus, dischargeFor } from './flows-inverters.ts';
import { dcDrawKw, shareWithin } from './inverter.ts';
import * as slot from './slots.ts';

/** Per phase: load within the generator's cap, array help above it, and what the battery is asked to assist. */
export function findGeneratorNeeds(p: Float64Array, s: Float64Array, f: Float64Array): void {
  const arrayThere = p[slot.P_AC_HELD] === 1 && s[slot.S_AC_WAIT] <= slot.EPS;
  let draw = 0;
  let room = 0;
  for (let k = 0; k < p[slot.P_PHASES]; k++) {
    const cap = f[slot.F_CAP + k];
    const tripped = s[slot.S_TRIP + k] > slot.EPS;
    const want = tripped ? 0 : f[slot.F_WANT + k];
    const array = arrayThere && !tripped ? f[slot.F_ARRAY_AC + k] : 0;
    const overArray = Math.min(array, Math.max(0, want - cap));
    const over = Math.max(0, want - overArray - cap);
    const carried = Math.min(over, assistLimitKw(p, f, k));
    const genLoad = Math.min(want - overArray, cap);
    f[slot.F_ARRAY_OVER + k] = overArray;
    f[slot.F_DEFICIT + k] = over;
    f[slot.F_CARRIED + k] = carried;
    f[slot.F_GEN_LOAD + k] = genLoad;
    draw += dcDrawKw(carried, p[slot.P_LOSS_LINEAR], p[slot.P_LOSS_QUADRATIC]);
    if (!tripped) room += chargerRoomKw(p, s, f, k, genLoad);
  }
  f[slot.F_DRAW] = draw;
  f[slot.F_SURPLUS] = room;
}

/** What the inverter of a phase adds to the generator: its help with peaks, or all where the set has no such phase. */
export function assistLimitKw(p: Float64Array, f: Float64Array, k: number): number {
  if (p[slot.P_CAPACITY] <= 0) return 0;
  return p[slot.P_ASSIST] === 1 || p[slot.P_GEN_PHASE_KW + k] === 0 ? f[slot.F_INV_LIMIT + k] : 0;
}

/** What the charger of a phase may take beside the load: within the cap, and within the output charging aims at. */
function chargerRoomKw(
  p: Float64Array,
  s: Float64Array,
  f: Float64Array,
  k: number,
  genLoad: number,
): number {
  const cap = f[slot.F_CAP + k];
  const most = isCharging(p, s) ? Math.min(cap, p[slot.P_CHARGE_TARGET]) : cap;
  return Math.max(0, Math.min(f[slot.F_CHARGER_LIMIT + k], most - genLoad));
}

/** Flows of a segment of `dt` hours, from the needs just found. */
export function flowFromGenerator(p: Float64Array, s: Float64Array, f: Float64Array, dt: number): void {
  const standing = f[slot.F_IDLE_NOW] + p[slot.P_STANDBY];
  const chargerEff = p[slot.P_CHARGER_EFF];
  const charging = isCharging(p, s);
  const room = chargerEff * f[slot.F_SURPLUS];
  const chargerMost = charging ? room : Math.min(room, standing);
  const needed = standing + f[slot.F_DRAW];
  const arrayDc = f[slot.F_ARRAY_DC];
  const supply = arrayDc + chargerMost;
  f[slot.F_SHARE] = 1;
  f[slot.F_SHORT] = slot.SHORT_NONE;
  f[slot.F_STANDBY] = p[slot.P_STANDBY];
  f[slot.F_IDLE] = f[slot.F_IDLE_NOW];
  f[slot.F_INV_LOSS] = f[slot.F_DRAW] - f[slot.F_CARRIED] - f[slot.F_CARRIED + 1] - f[slot.F_CARRIED + 2];
  let fromCharger = chargerMost;
  if (supply >= needed) {
    chargeFromSurplus(p, s, f, dt, supply - needed);
    f[slot.F_DC_USED] = Math.min(arrayDc, needed + f[slot.F_CHARGE]);
    fromCharger = needed + f[slot.F_CHARGE] - f[slot.F_DC_USED];
  } else {
    f[slot.F_OFFERED] = 0;
    f[slot.F_CHARGE] = 0;
    f[slot.F_FROST] = 0;
    f[slot.F_DC_USED] = arrayDc;
    dischargeFor(p, s, f, dt, supply, needed);
  }
  f[slot.F_CHARGER_AC] = fromCharger / chargerEff;
  loadGenerator(p, s, f, room > 0 ? fromCharger / room : 0);
  f[slot.F_FROST] = Math.min(f[slot.F_FROST], arrayDc - f[slot.F_DC_USED]);
  noteTapering(p, s, f, charging);
}

/** Whether this run charges the battery: always, but for a `peak` run that is not to. */
function isCharging(p: Float64Array, s: Float64Array): boolean {
  return s[slot.S_DUTY] !== CAUSE_PEAK || p[slot.P_PEAK_CHARGES] === 1;
}

/** Generator output per phase: load, chargers, less held-back arrays; and what of the arrays is used. */
function loadGenerator(p: Float64Array, s: Float64Array, f: Float64Array, chargerShare: number): void {
  const arrayThere = p[slot.P_AC_HELD] === 1 && s[slot.S_AC_WAIT] <= slot.EPS;
  let total = 0;
  let arrayUsed = 0;
  let arrayOffer = 0;
  for (let k = 0; k < p[slot.P_PHASES]; k++) {
    const tripped = s[slot.S_TRIP + k] > slot.EPS;
    const genLoad = f[slot.F_GEN_LOAD + k];
    const room = tripped ? 0 : chargerRoomKw(p, s, f, k, genLoad);
    const out = genLoad + room * chargerShare;
    f[slot.F_GEN_LOAD + k] = out;
    total += out;
    arrayUsed += f[slot.F_ARRAY_OVER + k];
    if (arrayThere && !tripped)
      arrayOffer += Math.min(f[slot.F_ARRAY_AC + k] - f[slot.F_ARRAY_OVER + k], out);
  }
  const headroom = Math.max(0, total - p[slot.P_MIN_LOAD_KW]);
  if (arrayOffer > 0) {
    const held = arrayOffer > headroom ? headroom / arrayOffer : 1;
    for (let k = 0; k < p[slot.P_PHASES]; k++) {
      const out = f[slot.F_GEN_LOAD + k];
      const tripped = s[slot.S_TRIP + k] > slot.EPS;
      const offer = tripped ? 0 : Math.min(f[slot.F_ARRAY_AC + k] - f[slot.F_ARRAY_OVER + k], out);
      f[slot.F_GEN_LOAD + k] = out - offer * held;
    }
    arrayUsed += arrayOffer * held;
    total -= arrayOffer * held;
  }
  f[slot.F_AC_USED] = arrayUsed;
  f[slot.F_GEN_KW] = total;
  if (p[slot.P_DC_TO_AC] === 1) passDcSurplus(p, f);
}

/** DC array that the battery does not take, through the inverters in place of generator output. */
function passDcSurplus(p: Float64Array, f: Float64Array): void {
  const left = f[slot.F_ARRAY_DC] - f[slot.F_DC_USED];
  if (left <= slot.EPS) return;
  let sum = 0;
  let squares = 0;
  let most = Number.POSITIVE_INFINITY;
  for (let k = 0; k < p[slot.P_PHASES]; k++) {
    const out = f[slot.F_CARRIED + k] > slot.EPS ? 0 : f[slot.F_GEN_LOAD + k];
    sum += out;
    squares += out * out;
    if (out > 0) most = Math.min(most, f[slot.F_INV_LIMIT + k] / out);
  }
  const headroom = Math.max(0, f[slot.F_GEN_KW] - p[slot.P_MIN_LOAD_KW]);
  if (sum <= 0 || headroom <= 0) return;
  const linear = p[slot.P_LOSS_LINEAR];
  const quadratic = p[slot.P_LOSS_QUADRATIC];
  const share = Math.min(shareWithin(left, sum, squares, linear, quadratic), headroom / sum, most);
  const loss = linear * sum * share + quadratic * squares * share * share;
  f[slot.F_GEN_KW] -= sum * share;
  f[slot.F_DC_USED] += sum * share + loss;
  f[slot.F_INV_LOSS] += loss;
}

/** Whether charging is tailing off, and whether it is above the taper's start: their timers end charge runs. */
function noteTapering(p: Float64Array, s: Float64Array, f: Float64Array, charging: boolean): void {
  const limited = f[slot.F_OFFERED] > 0 && f[slot.F_CHARGE] < f[slot.F_OFFERED] - slot.EPS;
  f[slot.F_TAILS] = Number(charging && limited && f[slot.F_CHARGE] < p[slot.P_TAIL_KW]);
  f[slot.F_ABSORBS] = Number(charging && s[slot.S_E] >= p[slot.P_E_TAPER] - slot.EPS);
}
