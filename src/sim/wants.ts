/** What the plant can do and what is wanted of it in one step: capabilities, thermostats, loads, arrays. */
import { chargeFactor } from './battery.ts';
import { dutyTowards } from './cabinet.ts';
import { deratingFactor } from './inverter.ts';
import { warmestCellC } from './more-cabinets.ts';
import * as slot from './slots.ts';

/** Charge limit by cell temperature, frost latch, and what inverters and chargers can carry when hot. */
export function findLimits(p: Float64Array, s: Float64Array, f: Float64Array): void {
  const cellC = s[slot.S_BATTERY_C];
  const main = chargeFactor(
    cellC,
    p[slot.P_COLD_NONE],
    p[slot.P_COLD_FULL],
    p[slot.P_HOT_FULL],
    p[slot.P_HOT_NONE],
  );
  const factor = p[slot.P_MAIN_SHARE] * main + f[slot.F_FACTOR_MORE];
  f[slot.F_CHARGE_FACTOR] = factor;
  f[slot.F_CHARGE_LIMIT] = factor * p[slot.P_CHARGE_KW];
  const warmestC = warmestCellC(p, f, cellC);
  if (warmestC <= p[slot.P_COLD_NONE]) s[slot.S_FROZEN] = 1;
  else if (warmestC >= p[slot.P_THAW]) s[slot.S_FROZEN] = 0;
  f[slot.F_DERATING] = deratingFactor(s[slot.S_AIR_C], p[slot.P_KNEE], p[slot.P_DERATE_SLOPE]);
}

/**
 * Heater and cooler for this step by duty fraction, so that long steps do not overshoot: temperatures at the
 * end of the step are foreseen with the losses of the step before, and the duty is what ends at the switching
 * temperature.
 */
export function setThermostats(
  p: Float64Array,
  s: Float64Array,
  f: Float64Array,
  outsideC: number,
  sunWPerM2: number,
): void {
  const heatAir = s[slot.S_HEAT_AIR] + p[slot.P_SUN_APERTURE] * sunWPerM2;
  const heatBattery = s[slot.S_HEAT_BATTERY];
  const heaterFree =
    p[slot.P_HEATER] > 0 &&
    (f[slot.F_SHOWN_E] >= p[slot.P_HEATER_MIN_E] - slot.EPS || s[slot.S_GEN] === slot.GEN_ON_LOAD);
  let heaterKw = 0;
  if (heaterFree) {
    const idleC = nodeAtEnd(p, s, 1, outsideC, heatAir, heatBattery);
    const rise = p[slot.P_GAMMA + 5] * p[slot.P_HEATER];
    const on = s[slot.S_HEATER_ON] === 1;
    const goal = on ? p[slot.P_HEATER_OFF] : p[slot.P_HEATER_ON];
    heaterKw = p[slot.P_HEATER] * dutyTowards(goal - idleC, rise, on);
    s[slot.S_HEATER_ON] = Number(on ? idleC + rise <= goal : idleC < goal);
  } else s[slot.S_HEATER_ON] = 0;
  let coolerKw = 0;
  if (p[slot.P_COOLER] > 0) {
    const idleC = nodeAtEnd(p, s, 0, outsideC, heatAir, heatBattery);
    const fall = p[slot.P_GAMMA + 1] * p[slot.P_COOLER_COP] * p[slot.P_COOLER];
    const on = s[slot.S_COOLER_ON] === 1;
    const goal = on ? p[slot.P_COOLER_OFF] : p[slot.P_COOLER_ON];
    coolerKw = p[slot.P_COOLER] * dutyTowards(idleC - goal, fall, on);
    s[slot.S_COOLER_ON] = Number(on ? idleC - fall >= goal : idleC > goal);
  }
  f[slot.F_HEATER] = heaterKw;
  f[slot.F_COOLER] = coolerKw;
  f[slot.F_CLIMATE] = heaterKw + coolerKw + (f[slot.F_HEATER_MORE] + f[slot.F_COOLER_MORE]);
}

/** Node 0 (air) or 1 (battery) at the end of the step under given heats [°C]. */
function nodeAtEnd(
  p: Float64Array,
  s: Float64Array,
  node: number,
  outsideC: number,
  heatAir: number,
  heatBattery: number,
): number {
  const phi = slot.P_PHI + 2 * node;
  const gamma = slot.P_GAMMA + 3 * node;
  return (
    p[phi] * s[slot.S_AIR_C] +
    p[phi + 1] * s[slot.S_BATTERY_C] +
    p[gamma] * outsideC +
    p[gamma + 1] * heatAir +
    p[gamma + 2] * heatBattery
  );
}

/** Both nodes at the end of the step, from the heats that really came (kWh over the step). */
export function stepTemperatures(
  p: Float64Array,
  s: Float64Array,
  f: Float64Array,
  outsideC: number,
  sunWPerM2: number,
): void {
  const perStep = 1 / p[slot.P_STEP_H];
  const lossAir = f[slot.F_HEAT_AIR_KWH] * perStep;
  const lossBattery = f[slot.F_HEAT_BATTERY_KWH] * perStep * p[slot.P_MAIN_SHARE];
  const cooling = f[slot.F_COOLER_KWH] * perStep * p[slot.P_COOLER_COP];
  const heatAir = lossAir + p[slot.P_SUN_APERTURE] * sunWPerM2 - cooling;
  const heatBattery = lossBattery + f[slot.F_HEATER_KWH] * perStep;
  const air = nodeAtEnd(p, s, 0, outsideC, heatAir, heatBattery);
  s[slot.S_BATTERY_C] = nodeAtEnd(p, s, 1, outsideC, heatAir, heatBattery);
  s[slot.S_AIR_C] = air;
  s[slot.S_HEAT_AIR] = lossAir;
  s[slot.S_HEAT_BATTERY] = lossBattery;
}
