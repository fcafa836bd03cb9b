/** Books the flows of a segment: state, totals, log. RULES.md, what is booked. */
import {
  OUTAGE_ENERGY,
  OUTAGE_PERSON_AWAY,
  OUTAGE_POWER,
  OUTAGE_START_FAILURE,
  OUTAGE_TANK_DRY,
  OUTAGE_TRIP,
} from './causes.ts';
import { closeOutage, goOnOutage } from './log.ts';
import * as slot from './slots.ts';
import { tankHasFuel } from './tank.ts';
import { evenOut } from './wells.ts';

/** Energies that flow in every mode. */
export function bookFlows(p: Float64Array, s: Float64Array, f: Float64Array, t: Float64Array): void {
  const dt = f[slot.F_DT];
  t[slot.T_DC_USED] += f[slot.F_DC_USED] * dt;
  t[slot.T_AC_USED] += f[slot.F_AC_USED] * dt;
  t[slot.T_CHARGE] += f[slot.F_CHARGE] * dt;
  t[slot.T_DISCHARGE] += f[slot.F_DISCHARGE] * dt;
  t[slot.T_STANDBY] += f[slot.F_STANDBY] * dt;
  t[slot.T_IDLE] += f[slot.F_IDLE] * dt;
  t[slot.T_INV_LOSS] += f[slot.F_INV_LOSS] * dt;
  t[slot.T_CHARGER_AC] += f[slot.F_CHARGER_AC] * dt;
  t[slot.T_FROST] += f[slot.F_FROST] * dt;
  f[slot.F_HEAT_AIR_KWH] +=
    (f[slot.F_INV_LOSS] + f[slot.F_IDLE] + f[slot.F_CHARGER_AC] * (1 - p[slot.P_CHARGER_EFF])) * dt;
  f[slot.F_HEAT_BATTERY_KWH] += (batteryLossKw(p, f) + f[slot.F_STANDBY]) * dt;
  if (p[slot.P_KINETIC] === 1) evenOut(p, s, f[slot.F_E_NEXT], dt);
  s[slot.S_E] = f[slot.F_E_NEXT];
}

/** Loss inside the battery by its one-way efficiencies [kW]. */
export function batteryLossKw(p: Float64Array, f: Float64Array): number {
  if (p[slot.P_CAPACITY] <= 0) return 0;
  return (
    f[slot.F_CHARGE] * (1 - p[slot.P_CHARGE_EFF]) + f[slot.F_DISCHARGE] * (1 / p[slot.P_DISCHARGE_EFF] - 1)
  );
}

/** Engine running: hours, energy, loading. `fuelRate` in L/h. */
export function bookEngine(
  p: Float64Array,
  s: Float64Array,
  f: Float64Array,
  t: Float64Array,
  fuelRate: number,
): void {
  const dt = f[slot.F_DT];
  const kw = f[slot.F_GEN_KW];
  const rated = p[slot.P_GEN_RATED];
  t[slot.T_FUEL] += fuelRate * dt;
  t[slot.T_GEN] += kw * dt;
  t[slot.T_RUN_H] += dt;
  t[slot.T_NIGHT_H] += f[slot.F_NIGHT] * dt;
  if (kw < 0.3 * rated - slot.EPS) t[slot.T_LOW_LOAD_H] += dt;
  s[slot.S_RUN_KWH] += kw * dt;
  s[slot.S_RUN_LITRES] += fuelRate * dt;
  if (s[slot.S_SECOND] === 1) {
    t[slot.T_SECOND_FUEL] += fuelRate * dt;
    t[slot.T_SECOND_H] += dt;
  } else if (p[slot.P_TANK] === 1) s[slot.S_TANK] -= fuelRate * dt;
  f[slot.F_STEP_RAN] = 1 + s[slot.S_CAUSE];
  if (s[slot.S_GEN] !== slot.GEN_ON_LOAD) return;
  t[slot.T_ON_LOAD_H] += dt;
  t[slot.T_LOADING_H + Math.min(9, Math.floor((10 * kw) / rated + slot.EPS))] += dt;
  s[slot.S_TAIL] = f[slot.F_TAILS] === 1 ? s[slot.S_TAIL] + dt : 0;
  s[slot.S_ABSORB] += f[slot.F_ABSORBS] * dt;
}

/**
 * Load and climate control of the segment, served or not, by cause.
 * Unserved load, mean over the segment, is left in F_UNSERVED.
 */
export function bookLoads(
  p: Float64Array,
  s: Float64Array,
  f: Float64Array,
  t: Float64Array,
  outages: Float64Array,
  mode: number,
): void {
  const dt = f[slot.F_DT];
  const phases = p[slot.P_PHASES];
  const climatePerPhase = f[slot.F_CLIMATE] / phases;
  const shrunk = 1 - f[slot.F_SHARE];
  const energyCause = whyNoEnergy(p, s, f);
  const shrinkCause = f[slot.F_SHORT] === slot.SHORT_POWER ? OUTAGE_POWER : energyCause;
  let unserved = 0;
  let climate = 0;
  let cause = OUTAGE_PERSON_AWAY;
  let wholeTime = false;
  for (let k = 0; k < phases; k++) {
    const want = f[slot.F_WANT + k];
    const load = f[slot.F_LOAD + k];
    if (want <= 0) continue;
    if (mode === MODE_OFF) {
      unserved += missed(t, k, energyCause, load, dt);
      cause = Math.min(cause, energyCause);
      wholeTime = true;
    } else if (s[slot.S_TRIP + k] > slot.EPS) {
      unserved += missed(t, k, OUTAGE_TRIP, load, dt);
      cause = Math.min(cause, OUTAGE_TRIP);
      wholeTime = true;
    } else {
      const carried = f[slot.F_CARRIED + k];
      const overFrac = (f[slot.F_DEFICIT + k] - carried) / want;
      const shortFrac = (shrunk * carried) / want;
      climate += climatePerPhase * (1 - overFrac - shortFrac);
      if (overFrac > 0) {
        unserved += missed(t, k, OUTAGE_POWER, load * overFrac, dt);
        if (load * overFrac * dt > slot.EPS) cause = OUTAGE_POWER;
        if (load > 0) wholeTime = true;
      }
      if (shortFrac > 0) {
        unserved += missed(t, k, shrinkCause, load * shortFrac, dt);
        if (load * shortFrac * dt > slot.EPS) cause = Math.min(cause, shrinkCause);
        if (shrinkCause === OUTAGE_POWER) wholeTime = true;
      }
    }
  }
  bookClimate(f, t, climate);
  const servedH = wholeTime ? 0 : f[slot.F_SHARE] * dt;
  if (unserved * dt > slot.EPS) {
    t[slot.T_UNSERVED_H] += dt - servedH;
    goOnOutage(s, t, f[slot.F_TIME] + servedH, unserved * dt, cause);
  } else if (s[slot.S_OUTAGE_OPEN] === 1) closeOutage(s, f[slot.F_TIME], outages);
  f[slot.F_UNSERVED] = unserved;
}

/** Why there is no energy: what keeps the generator from giving some, if anything does. */
function whyNoEnergy(p: Float64Array, s: Float64Array, f: Float64Array): number {
  if (p[slot.P_GENERATOR] === 0) return OUTAGE_ENERGY;
  if (s[slot.S_SECOND] === 0) {
    if (s[slot.S_FAILED] === 1 || f[slot.F_OUT_OF_ORDER] === 1) return OUTAGE_START_FAILURE;
    if (s[slot.S_UNBLED] === 1 || !tankHasFuel(p, s)) return OUTAGE_TANK_DRY;
  }
  const needed = s[slot.S_CALLED] === 1 || f[slot.F_HAND] === 1;
  return needed && f[slot.F_ATTENDED] === 0 ? OUTAGE_PERSON_AWAY : OUTAGE_ENERGY;
}

/** The segment's modes as far as the booking of loads goes: AC alive, or off. */
export const MODE_ALIVE = 0;
export const MODE_OFF = 1;

function missed(t: Float64Array, phase: number, cause: number, kw: number, dt: number): number {
  t[slot.T_UNSERVED + phase] += kw * dt;
  t[slot.T_UNSERVED_BY + cause] += kw * dt;
  return kw;
}

function bookClimate(f: Float64Array, t: Float64Array, servedKw: number): void {
  const wanted = f[slot.F_CLIMATE];
  f[slot.F_CLIMATE_SERVED] = servedKw;
  if (wanted <= 0) return;
  const hours = (servedKw / wanted) * f[slot.F_DT];
  const own = f[slot.F_OWN] * hours;
  t[slot.T_OWN] += own;
  t[slot.T_CLIMATE] += servedKw * f[slot.F_DT];
  t[slot.T_CLIMATE] -= own;
  t[slot.T_HEATER] += (f[slot.F_HEATER] + f[slot.F_HEATER_MORE]) * hours;
  t[slot.T_COOLER] += (f[slot.F_COOLER] + f[slot.F_COOLER_MORE]) * hours;
  f[slot.F_CLIMATE_H] += hours;
  f[slot.F_HEATER_KWH] += f[slot.F_HEATER] * hours;
  f[slot.F_COOLER_KWH] += f[slot.F_COOLER] * hours;
}

/** What was dropped on purpose, and what ran on surplus beside the load. */
export function bookChosenLoads(f: Float64Array, t: Float64Array): void {
  const dt = f[slot.F_DT];
  if (f[slot.F_SHED_KW] > 0) {
    t[slot.T_SHED] += f[slot.F_SHED_KW] * dt;
    t[slot.T_SHED_H] += dt;
  }
  t[slot.T_SHIFTED] += f[slot.F_SHIFTED] * dt;
}

/** What full inverters would have carried above the derated limit, of tripped phases too. */
export function bookDerating(p: Float64Array, s: Float64Array, f: Float64Array, t: Float64Array): void {
  if (f[slot.F_DERATING] >= 1) return;
  for (let k = 0; k < p[slot.P_PHASES]; k++) {
    const rated = p[slot.P_INV_RATED] * f[slot.F_UNITS + k];
    const limit = f[slot.F_INV_LIMIT + k];
    const need = s[slot.S_TRIP + k] > slot.EPS ? f[slot.F_WANT + k] : f[slot.F_DEFICIT + k];
    t[slot.T_DERATED] += Math.max(0, Math.min(need, rated) - limit) * f[slot.F_DT];
  }
}
