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

/**
 * The start of a step: what the cells in these cabinets accept and how warm they are, and heaters and coolers by the
 * same rule as in the first cabinet; nothing is switched before `stepCabinets`. All is left in f.
 */
export function readCabinets(p: Float64Array, s: Float64Array, f: Float64Array, more: Float64Array): void {
  const onLoad = s[slot.S_GEN] === slot.GEN_ON_LOAD;
  const shownE = f[slot.F_SHOWN_E];
  const outsideC = f[slot.F_OUTSIDE];
  const sunWPerM2 = f[slot.F_SUN];
  let heaters = 0;
  let coolers = 0;
  let factor = 0;
  let warmest = Number.NEGATIVE_INFINITY;
  for (let r = 0; r < more.length; r += FIELDS) {
    const airC = more[r + AIR_C];
    const cellC = more[r + BATTERY_C];
    const toAir = more[r + SUN_APERTURE] * sunWPerM2;
    const toBattery = more[r + HEAT_BATTERY];
    factor +=
      more[r + SHARE] *
      chargeFactor(cellC, p[slot.P_COLD_NONE], p[slot.P_COLD_FULL], p[slot.P_HOT_FULL], p[slot.P_HOT_NONE]);
    const hasCells = more[r + SHARE] > slot.EPS;
    if (hasCells && cellC > warmest) warmest = cellC;
    let heaterKw = 0;
    let heaterStays = 0;
    const heater = more[r + HEATER];
    if (heater > 0 && (onLoad || shownE >= more[r + HEATER_MIN_E] - slot.EPS)) {
      const ends = nodeAtEnd(more, r + PHI + 2, r + GAMMA + 3, airC, cellC, outsideC, toAir, toBattery);
      const rise = more[r + GAMMA + 5] * heater;
      const on = more[r + HEATER_IS_ON] === 1;
      const goal = on ? more[r + HEATER_OFF_C] : more[r + HEATER_ON_C];
      heaterKw = heater * dutyTowards(goal - ends, rise, on);
      heaterStays = Number(on ? ends + rise <= goal : ends < goal);
    }
    more[r + HEATER_KW] = heaterKw;
    more[r + HEATER_STAYS] = heaterStays;
    let coolerKw = 0;
    let coolerStays = 0;
    const cooler = more[r + COOLER];
    if (cooler > 0) {
      const ends = nodeAtEnd(more, r + PHI, r + GAMMA, airC, cellC, outsideC, toAir, toBattery);
      const fall = more[r + GAMMA + 1] * more[r + COOLER_COP] * cooler;
      const on = more[r + COOLER_IS_ON] === 1;
      const goal = on ? more[r + COOLER_OFF_C] : more[r + COOLER_ON_C];
      coolerKw = cooler * dutyTowards(ends - goal, fall, on);
      coolerStays = Number(on ? ends - fall >= goal : ends > goal);
    }
    more[r + COOLER_KW] = coolerKw;
    more[r + COOLER_STAYS] = coolerStays;
    heaters += heaterKw;
    coolers += coolerKw;
  }
  f[slot.F_FACTOR_MORE] = factor;
  f[slot.F_WARMEST_MORE] = warmest;
  f[slot.F_HEATER_MORE] = heaters;
  f[slot.F_COOLER_MORE] = coolers;
}

/** One node at the end of the step [°C]; `phi` and `gamma` are where its rows begin. */
function nodeAtEnd(
  more: Float64Array,
  phi: number,
  gamma: number,
  airC: number,
  cellC: number,
  outsideC: number,
  toAir: number,
  toBattery: number,
): number {
  return (
    more[phi] * airC +
    more[phi + 1] * cellC +
    more[gamma] * outsideC +
    more[gamma + 1] * toAir +
    more[gamma + 2] * toBattery
  );
}

/**
 * Switches, and warms or cools to the end of the step, by the hours in F_CLIMATE_H for which heaters and coolers had
 * the power they wanted, and the heat of the whole battery in F_HEAT_BATTERY_KWH; how warm the cells are then is left
 * in f.
 */
export function stepCabinets(p: Float64Array, f: Float64Array, more: Float64Array): void {
  const perStep = 1 / p[slot.P_STEP_H];
  const servedFrac = f[slot.F_CLIMATE_H] * perStep;
  const batteryKw = f[slot.F_HEAT_BATTERY_KWH] * perStep;
  const outsideC = f[slot.F_OUTSIDE];
  const sunWPerM2 = f[slot.F_SUN];
  let coldest = Number.POSITIVE_INFINITY;
  let warmest = Number.NEGATIVE_INFINITY;
  let mean = 0;
  for (let r = 0; r < more.length; r += FIELDS) {
    const airC = more[r + AIR_C];
    const cellC = more[r + BATTERY_C];
    const lossKw = more[r + SHARE] * batteryKw;
    const toAir =
      more[r + SUN_APERTURE] * sunWPerM2 - more[r + COOLER_COP] * (more[r + COOLER_KW] * servedFrac);
    const toBattery = lossKw + more[r + HEATER_KW] * servedFrac;
    const next = nodeAtEnd(more, r + PHI + 2, r + GAMMA + 3, airC, cellC, outsideC, toAir, toBattery);
    more[r + AIR_C] = nodeAtEnd(more, r + PHI, r + GAMMA, airC, cellC, outsideC, toAir, toBattery);
    more[r + BATTERY_C] = next;
    more[r + HEAT_BATTERY] = lossKw;
    more[r + HEATER_IS_ON] = more[r + HEATER_STAYS];
    more[r + COOLER_IS_ON] = more[r + COOLER_STAYS];
    const hasCells = more[r + SHARE] > slot.EPS;
    if (hasCells && next < coldest) coldest = next;
    if (hasCells && next > warmest) warmest = next;
    mean += more[r + SHARE] * next;
  }
  f[slot.F_COLDEST_MORE] = coldest;
  f[slot.F_WARMEST_MORE] = warmest;
  f[slot.F_MEAN_MORE] = mean;
}

/** Highest temperature of all cells, from what was left in f. @param cellC in the first place, if any are there */
export function warmestCellC(p: Float64Array, f: Float64Array, cellC: number): number {
  return p[slot.P_MAIN_SHARE] > slot.EPS ? Math.max(cellC, f[slot.F_WARMEST_MORE]) : f[slot.F_WARMEST_MORE];
}

/** Lowest temperature of all cells, likewise. */
export function coldestCellC(p: Float64Array, f: Float64Array, cellC: number): number {
  return p[slot.P_MAIN_SHARE] > slot.EPS ? Math.min(cellC, f[slot.F_COLDEST_MORE]) : f[slot.F_COLDEST_MORE];
}
