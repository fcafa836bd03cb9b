/**
 * Cabinets with batteries only, beside the first one: two nodes each, own heater and cooler, their own part of the
 * battery's losses. One row of numbers each; the temperatures in it are state.
 */
import { chargeFactor } from './battery.ts';
import { dutyTowards, thermalStep } from './cabinet.ts';
import type { BatteryCabinet } from './plant.ts';
import * as slot from './slots.ts';

const SHARE = 0; // of the battery
const PHI = 1;
const GAMMA = 5;
const SUN_APERTURE = 11; // [kW per W/m²]
const COOLER = 12;
const COOLER_COP = 13;
const COOLER_ON_C = 14;
const COOLER_OFF_C = 15;
const HEATER = 16;
const HEATER_ON_C = 17;
const HEATER_OFF_C = 18;
const HEATER_MIN_E = 19;
const AIR_C = 20; // state
const BATTERY_C = 21;
const HEAT_BATTERY = 22; // losses of the step before [kW]
const HEATER_IS_ON = 23;
const COOLER_IS_ON = 24;
const HEATER_KW = 25; // this step
const COOLER_KW = 26;
const HEATER_STAYS = 27;
const COOLER_STAYS = 28;
const FIELDS = 29;

/** Rows of the further cabinets. @param stepH step [h] */
export function compileCabinets(
  cabinets: readonly BatteryCabinet[],
  stepH: number,
  capacityKwh: number,
): Float64Array {
  const rows = new Float64Array(cabinets.length * FIELDS);
  for (const [j, { cabinet, batteryShare }] of cabinets.entries()) {
    const row = rows.subarray(j * FIELDS, (j + 1) * FIELDS);
    const { phi, gamma } = thermalStep(cabinet, stepH);
    row[SHARE] = batteryShare;
    row.set(phi, PHI);
    row.set(gamma, GAMMA);
    row[SUN_APERTURE] = cabinet.sunApertureM2 / 1000;
    row[COOLER] = cabinet.coolerKw;
    row[COOLER_COP] = cabinet.coolerCop;
    row[COOLER_ON_C] = cabinet.coolerOnC;
    row[COOLER_OFF_C] = cabinet.coolerOffC;
    row[HEATER] = cabinet.heaterKw;
    row[HEATER_ON_C] = cabinet.heaterOnC;
    row[HEATER_OFF_C] = cabinet.heaterOffC;
    row[HEATER_MIN_E] = cabinet.heaterMinSoc * capacityKwh;
    row[AIR_C] = cabinet.initialC;
    row[BATTERY_C] = cabinet.initialC;
  }
  return rows;
}

/** Charge factor of the whole bank: each cabinet's by its share. @param main share times factor of the first one */
export function bankFactor(p: Float64Array, more: Float64Array, main: number): number {
  let factor = main;
  for (let r = 0; r < more.length; r += FIELDS)
    factor +=
      more[r + SHARE] *
      chargeFactor(
        more[r + BATTERY_C],
        p[slot.P_COLD_NONE],
        p[slot.P_COLD_FULL],
        p[slot.P_HOT_FULL],
        p[slot.P_HOT_NONE],
      );
  return factor;
}

/** Highest temperature of the cells. @param cellC in the first cabinet, which counts if there are any */
export function warmestCellC(p: Float64Array, more: Float64Array, cellC: number): number {
  if (more.length === 0) return cellC;
  let warmest = p[slot.P_MAIN_SHARE] > slot.EPS ? cellC : Number.NEGATIVE_INFINITY;
  for (let r = 0; r < more.length; r += FIELDS) warmest = Math.max(warmest, more[r + BATTERY_C]);
  return warmest;
}

/** Lowest temperature of the cells, likewise. */
export function coldestCellC(p: Float64Array, more: Float64Array, cellC: number): number {
  if (more.length === 0) return cellC;
  let coldest = p[slot.P_MAIN_SHARE] > slot.EPS ? cellC : Number.POSITIVE_INFINITY;
  for (let r = 0; r < more.length; r += FIELDS) coldest = Math.min(coldest, more[r + BATTERY_C]);
  return coldest;
}

/** Mean temperature of the cells, by capacity. @param cellC in the first cabinet */
export function meanCellC(p: Float64Array, more: Float64Array, cellC: number): number {
  let mean = p[slot.P_MAIN_SHARE] * cellC;
  for (let r = 0; r < more.length; r += FIELDS) mean += more[r + SHARE] * more[r + BATTERY_C];
  return mean;
}

/**
 * Heaters and coolers for this step, by the same rule as in the first cabinet; nothing is switched before
 * `stepCabinets`.
 * What they want all together is left in f [kW].
 */
export function setMoreThermostats(
  more: Float64Array,
  f: Float64Array,
  shownE: number,
  onLoad: boolean,
  outsideC: number,
  sunWPerM2: number,
): void {
  let heaters = 0;
  let coolers = 0;
  for (let r = 0; r < more.length; r += FIELDS) {
    const toAir = more[r + SUN_APERTURE] * sunWPerM2;
    const toBattery = more[r + HEAT_BATTERY];
    more[r + HEATER_KW] = 0;
    more[r + HEATER_STAYS] = 0;
    if (more[r + HEATER] > 0 && (shownE >= more[r + HEATER_MIN_E] - slot.EPS || onLoad)) {
      const ends = nodeAtEnd(more, r, 1, outsideC, toAir, toBattery);
      const rise = more[r + GAMMA + 5] * more[r + HEATER];
      const on = more[r + HEATER_IS_ON] === 1;
      const goal = on ? more[r + HEATER_OFF_C] : more[r + HEATER_ON_C];
      more[r + HEATER_KW] = more[r + HEATER] * dutyTowards(goal - ends, rise, on);
      more[r + HEATER_STAYS] = Number(on ? ends + rise <= goal : ends < goal);
    }
    more[r + COOLER_KW] = 0;
    more[r + COOLER_STAYS] = 0;
    if (more[r + COOLER] > 0) {
      const ends = nodeAtEnd(more, r, 0, outsideC, toAir, toBattery);
      const fall = more[r + GAMMA + 1] * more[r + COOLER_COP] * more[r + COOLER];
      const on = more[r + COOLER_IS_ON] === 1;
      const goal = on ? more[r + COOLER_OFF_C] : more[r + COOLER_ON_C];
      more[r + COOLER_KW] = more[r + COOLER] * dutyTowards(ends - goal, fall, on);
      more[r + COOLER_STAYS] = Number(on ? ends - fall >= goal : ends > goal);
    }
    heaters += more[r + HEATER_KW];
    coolers += more[r + COOLER_KW];
  }
  f[slot.F_HEATER_MORE] = heaters;
  f[slot.F_COOLER_MORE] = coolers;
}

function nodeAtEnd(
  more: Float64Array,
  r: number,
  node: number,
  outsideC: number,
  toAir: number,
  toBattery: number,
): number {
  const phi = r + PHI + 2 * node;
  const gamma = r + GAMMA + 3 * node;
  return (
    more[phi] * more[r + AIR_C] +
    more[phi + 1] * more[r + BATTERY_C] +
    more[gamma] * outsideC +
    more[gamma + 1] * toAir +
    more[gamma + 2] * toBattery
  );
}

/**
 * Switches and warms or cools to the end of the step.
 * @param servedFrac share of the step for which heaters and coolers had the power they wanted
 * @param batteryKw  heat of the whole battery's losses and standby, mean [kW]
 */
export function stepCabinets(
  more: Float64Array,
  servedFrac: number,
  batteryKw: number,
  outsideC: number,
  sunWPerM2: number,
): void {
  for (let r = 0; r < more.length; r += FIELDS) {
    const lossKw = more[r + SHARE] * batteryKw;
    const toAir =
      more[r + SUN_APERTURE] * sunWPerM2 - more[r + COOLER_COP] * (more[r + COOLER_KW] * servedFrac);
    const toBattery = lossKw + more[r + HEATER_KW] * servedFrac;
    const air = nodeAtEnd(more, r, 0, outsideC, toAir, toBattery);
    more[r + BATTERY_C] = nodeAtEnd(more, r, 1, outsideC, toAir, toBattery);
    more[r + AIR_C] = air;
    more[r + HEAT_BATTERY] = lossKw;
    more[r + HEATER_IS_ON] = more[r + HEATER_STAYS];
    more[r + COOLER_IS_ON] = more[r + COOLER_STAYS];
  }
}
