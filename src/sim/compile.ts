import { thermalStep } from './cabinet.ts';
import type { Controls, ThresholdSet } from './controls.ts';
import { fuelStretches } from './fuel.ts';
import type { Battery, Cabinet, Generator, Inverter, Overload, Plant, Shiftable, Tank } from './plant.ts';
import * as slot from './slots.ts';

/**
 * Flattens plant and controls into the parameters that the step loop reads, every coefficient worked out.
 * @param stepH step [h]
 * @returns parameters by the P_ slots
 */
export function compileParameters(plant: Plant, controls: Controls, stepH: number): Float64Array {
  const p = new Float64Array(slot.P_SIZE);
  p[slot.P_STEP_H] = stepH;
  p[slot.P_PHASES] = plant.phases;
  p[slot.P_ROOM] = plant.roomC;
  p.set(plant.acArrayShare, slot.P_SHARE);
  if (plant.battery) setBattery(p, plant.battery);
  else p[slot.P_E_DEAD] = -1;
  setInverter(p, plant.inverter, plant.phases);
  if (plant.generator) setGenerator(p, plant.generator, plant.phases);
  if (plant.generator && plant.secondGenerator) {
    setSecondGenerator(p, plant.secondGenerator.generator, plant.phases);
    p[slot.P_SECOND_CONNECT] = plant.secondGenerator.connectH;
  }
  if (plant.tank) setTank(p, plant.tank);
  if (plant.cabinet) setCabinet(p, plant.cabinet, stepH, plant.battery?.capacityKwh ?? 0);
  p[slot.P_MAIN_SHARE] = (plant.batteryCabinets ?? []).reduce(
    (rest, { batteryShare }) => rest - batteryShare,
    1,
  );
  setShiftable(p, plant.shiftable ?? []);
  setControls(p, controls, plant, plant.battery?.capacityKwh ?? 0);
  return p;
}

/** State at the first instant, by the S_ slots. */
export function initialState(plant: Plant): Float64Array {
  const s = new Float64Array(slot.S_SIZE);
  s[slot.S_E] = plant.battery ? plant.battery.initialSoc * plant.battery.capacityKwh : 0;
  s[slot.S_SITE] = slot.SITE_ON;
  s[slot.S_GEN] = slot.GEN_STOPPED;
  s[slot.S_TANK] = plant.tank?.initialL ?? 0;
  s[slot.S_AIR_C] = plant.cabinet?.initialC ?? plant.roomC;
  s[slot.S_BATTERY_C] = plant.cabinet?.initialC ?? plant.roomC;
  s[slot.S_SINCE_LOAD] = Number.POSITIVE_INFINITY;
  s[slot.S_AT_HAND] = s[slot.S_E] * (plant.battery?.kinetic?.atHandFrac ?? 0);
  for (let k = 0; k < 3; k++) s[slot.S_BUDGET + k] = 1;
  for (const [j, { kwhPerDay }] of (plant.shiftable ?? []).entries()) s[slot.S_SHIFT_LEFT + j] = kwhPerDay;
  return s;
}

function setBattery(p: Float64Array, battery: Battery): void {
  const full = battery.capacityKwh;
  p[slot.P_CAPACITY] = full;
  p[slot.P_E_CUTOFF] = battery.cutoffSoc * full;
  p[slot.P_E_RECONNECT] = battery.cutoffSoc * full + battery.reconnectSoc * full;
  p[slot.P_E_DEAD] = battery.deadSoc * full;
  p[slot.P_E_EMPTY] = Math.max(0, battery.deadSoc) * full;
  const tapers = battery.taperStartSoc < 1 && battery.taperEndFrac < 1;
  p[slot.P_E_TAPER] = battery.taperStartSoc * full;
  p[slot.P_TAPER_SLOPE] = tapers ? (1 - battery.taperEndFrac) / (full - battery.taperStartSoc * full) : 0;
  p[slot.P_CHARGE_KW] = battery.maxChargeKw;
  p[slot.P_DISCHARGE_KW] = battery.maxDischargeKw;
  p[slot.P_CHARGE_EFF] = battery.chargeEff;
  p[slot.P_DISCHARGE_EFF] = battery.dischargeEff;
  p[slot.P_STANDBY] = battery.standbyKw;
  p[slot.P_COLD_NONE] = battery.chargeNoneC;
  p[slot.P_COLD_FULL] = battery.chargeFullC;
  p[slot.P_HOT_FULL] = battery.chargeHotFullC;
  p[slot.P_HOT_NONE] = battery.chargeHotNoneC;
  p[slot.P_THAW] = battery.chargeNoneC + battery.thawMarginC;
  if (battery.kinetic) {
    p[slot.P_KINETIC] = 1;
    p[slot.P_KINETIC_C] = battery.kinetic.atHandFrac;
    p[slot.P_KINETIC_K] = battery.kinetic.ratePerH;
  }
  if (battery.display) {
    p[slot.P_DRIFT] = battery.display.driftPerH * full;
    p[slot.P_DRIFT_MOST] = battery.display.mostFrac * full;
    p[slot.P_DRIFT_RESET_E] = battery.display.resetSoc * full;
  }
}

function setInverter(p: Float64Array, inverter: Inverter, phases: number): void {
  p[slot.P_INV_RATED] = inverter.ratedKw;
  p[slot.P_IDLE] = inverter.idleKw * phases;
  p[slot.P_LOSS_LINEAR] = inverter.lossLinear;
  p[slot.P_LOSS_QUADRATIC] = inverter.lossQuadraticPerKw;
  p[slot.P_CHARGER] = inverter.chargerKw;
  p[slot.P_CHARGER_EFF] = inverter.chargerEff;
  p[slot.P_KNEE] = inverter.derateKneeC;
  p[slot.P_DERATE_SLOPE] = (1 - inverter.derateFrac) / (inverter.derateC - inverter.derateKneeC);
  p[slot.P_UNITS] = inverter.units ?? 1;
  p[slot.P_AC_INPUT] = inverter.acInputLimitKw;
  if (inverter.overload) setOverload(p, inverter.overload);
}

function setOverload(p: Float64Array, { frac, hours, recoveryH }: Overload): void {
  p[slot.P_OVERLOAD] = frac;
  p[slot.P_OVERLOAD_DRAIN] = 1 / ((frac - 1) * hours);
  p[slot.P_OVERLOAD_RECOVERY] = 1 / recoveryH;
}

function setShiftable(p: Float64Array, loads: readonly Shiftable[]): void {
  p[slot.P_SHIFTABLE] = loads.length;
  for (const [j, { phase, kw, kwhPerDay }] of loads.entries()) {
    p[slot.P_SHIFT_PHASE + j] = phase;
    p[slot.P_SHIFT_KW + j] = kw;
    p[slot.P_SHIFT_DAILY + j] = kwhPerDay;
  }
}

function setGenerator(p: Float64Array, generator: Generator, phases: number): void {
  p[slot.P_GENERATOR] = 1;
  setEngine(p, generator, phases);
  p[slot.P_RETRIES] = generator.retries ?? 0;
  p[slot.P_RETRY] = generator.retryH ?? 0;
  p[slot.P_BLEED] = Number(generator.mustBleed ?? false);
  p[slot.P_STANDING] = generator.standingKw ?? 0;
  p[slot.P_BLOCK_HEATER] = generator.blockHeaterKw ?? 0;
  p[slot.P_BLOCK_BELOW_C] = generator.blockHeaterBelowC ?? 0;
}

function setSecondGenerator(p: Float64Array, generator: Generator, phases: number): void {
  p[slot.P_SECOND] = 1;
  const other = new Float64Array(slot.P_SIZE);
  setEngine(other, generator, phases);
  p.set(other.subarray(slot.P_GEN_RATED, slot.P_BLACK_START + 1), slot.P_OTHER_SET);
}

/** What changes when another set takes over. */
function setEngine(p: Float64Array, generator: Generator, phases: number): void {
  p[slot.P_GEN_RATED] = generator.ratedKw;
  const single = generator.phase !== undefined;
  for (let k = 0; k < phases; k++)
    p[slot.P_GEN_PHASE_KW + k] = single
      ? Number(k === generator.phase) * generator.ratedKw
      : generator.ratedKw / phases;
  const { breaks, lines } = fuelStretches(generator.fuelKw, generator.fuelLPerH);
  p[slot.P_FUEL_BREAK_1] = breaks[0];
  p[slot.P_FUEL_BREAK_2] = breaks[1];
  p.set(lines, slot.P_FUEL_LINES);
  p[slot.P_START_DELAY] = generator.startDelayH;
  p[slot.P_WARM_UP] = generator.warmUpH;
  p[slot.P_COOL_DOWN] = generator.coolDownH;
  p[slot.P_MIN_LOAD_KW] = generator.minLoadFrac * generator.ratedKw;
  p[slot.P_BLACK_START] = Number(generator.blackStart);
}

function setTank(p: Float64Array, tank: Tank): void {
  p[slot.P_TANK] = 1;
  p[slot.P_TANK_CAPACITY] = tank.capacityL;
  p[slot.P_TANK_RESERVE] = tank.reserveL;
  p[slot.P_ORDER_AT] = tank.orderAtL;
  p[slot.P_LEAD] = tank.leadH;
}

function setCabinet(p: Float64Array, cabinet: Cabinet, stepH: number, capacityKwh: number): void {
  p[slot.P_CABINET] = 1;
  const { phi, gamma } = thermalStep(cabinet, stepH);
  p.set(phi, slot.P_PHI);
  p.set(gamma, slot.P_GAMMA);
  p[slot.P_SUN_APERTURE] = cabinet.sunApertureM2 / 1000;
  p[slot.P_COOLER] = cabinet.coolerKw;
  p[slot.P_COOLER_COP] = cabinet.coolerCop;
  p[slot.P_COOLER_ON] = cabinet.coolerOnC;
  p[slot.P_COOLER_OFF] = cabinet.coolerOffC;
  p[slot.P_HEATER] = cabinet.heaterKw;
  p[slot.P_HEATER_ON] = cabinet.heaterOnC;
  p[slot.P_HEATER_OFF] = cabinet.heaterOffC;
  p[slot.P_HEATER_MIN_E] = cabinet.heaterMinSoc * capacityKwh;
}

function setControls(p: Float64Array, controls: Controls, plant: Plant, capacityKwh: number): void {
  const hasBattery = plant.battery !== null;
  p[slot.P_TRIP_RULE] = Number(controls.shortfall === 'trip');
  p[slot.P_TRIP_ALL] = Number(controls.tripAllPhases);
  p[slot.P_RESTART] = controls.restartDelayH;
  p[slot.P_VISIT] = controls.deadVisitH;
  if (controls.charge && hasBattery) {
    p[slot.P_CHARGE_RULE] = 1;
    p[slot.P_START_E] = controls.charge.startSoc * capacityKwh;
    p[slot.P_CHARGE_DELAY] = controls.charge.delayH;
    p[slot.P_STOP_E] = controls.charge.stopSoc * capacityKwh;
    p[slot.P_TAIL_KW] = controls.charge.tailKw;
    p[slot.P_TAIL_H] = controls.charge.tailH;
    p[slot.P_ABSORB_H] = controls.charge.absorptionMaxH;
  }
  if (controls.peak) {
    p[slot.P_PEAK_RULE] = 1;
    p[slot.P_PEAK_START] = controls.peak.startKw;
    p[slot.P_PEAK_DELAY] = controls.peak.delayH;
    p[slot.P_PEAK_STOP] = controls.peak.stopKw;
    p[slot.P_PEAK_HOLD] = controls.peak.holdH;
    p[slot.P_PEAK_CHARGES] = Number(controls.peak.charges);
  }
  p[slot.P_CONTINUOUS] = Number(controls.continuous);
  p[slot.P_MIN_RUN] = controls.minRunH;
  p[slot.P_MAX_RUN] = controls.maxRunH;
  p[slot.P_REST] = controls.leastRestH;
  p[slot.P_RESTRICTED_ENDS] = Number(controls.restrictedEndsRun);
  p[slot.P_URGENT_E] = controls.urgentSoc * capacityKwh;
  p[slot.P_ASSIST] = Number(controls.peakAssist && hasBattery);
  p[slot.P_AC_HELD] = Number(controls.acArrayOnLoad === 'held');
  p[slot.P_AC_WAIT] = controls.acReconnectH;
  p[slot.P_DC_TO_AC] = Number(controls.dcToAcOnLoad);
  p[slot.P_CHARGE_TARGET] = (controls.chargeTargetKw ?? Number.POSITIVE_INFINITY) / plant.phases;
  p[slot.P_LOCK_TRIPS] = controls.lock?.trips ?? 0;
  p[slot.P_LOCK_WITHIN] = controls.lock?.withinH ?? 0;
  if (hasBattery) setBatteryRules(p, controls, capacityKwh);
  if (controls.exercise) {
    p[slot.P_EXERCISE_RULE] = 1;
    p[slot.P_EXERCISE_RUN] = controls.exercise.runH;
    p[slot.P_EXERCISE_UNLESS] = controls.exercise.unlessWithinH;
  }
}

/** Further rules that go by the state of charge. */
function setBatteryRules(p: Float64Array, { hand, full, shed }: Controls, capacityKwh: number): void {
  if (hand) {
    p[slot.P_HAND_RULE] = 1;
    p[slot.P_HAND_START_E] = hand.startSoc * capacityKwh;
    p[slot.P_HAND_RESPONSE] = hand.responseH;
    p[slot.P_HAND_STOP_E] = hand.stopSoc * capacityKwh;
    p[slot.P_HAND_ABSORB_H] = hand.absorptionMaxH;
  }
  if (full) {
    p[slot.P_FULL_RULE] = 1;
    p[slot.P_FULL_EVERY] = full.everyH;
    p[slot.P_FULL_STOP_E] = full.stopSoc * capacityKwh;
    p[slot.P_FULL_ABSORB_H] = full.absorptionMaxH;
  }
  if (shed) {
    p[slot.P_SHED_RULE] = 1;
    p[slot.P_SHED_BELOW_E] = shed.belowSoc * capacityKwh;
    p[slot.P_SHED_ABOVE_E] = shed.aboveSoc * capacityKwh;
    p[slot.P_SHED_OVERLOAD] = shed.overloadH;
  }
}

/** Numbers of a set of thresholds, in the order in which `threshold-sets.ts` writes them. */
export const SET_FIELDS = 5;

/** Every set of thresholds, row by row: the first is that of the controls. */
export function compileSets(p: Float64Array, sets: readonly ThresholdSet[]): Float64Array {
  const capacityKwh = p[slot.P_CAPACITY];
  const own = [slot.P_START_E, slot.P_STOP_E, slot.P_URGENT_E, slot.P_PEAK_START, slot.P_PEAK_STOP];
  const rows = sets.flatMap((set) => [
    set.startSoc * capacityKwh,
    set.stopSoc * capacityKwh,
    set.urgentSoc * capacityKwh,
    set.peakStartKw,
    set.peakStopKw,
  ]);
  return Float64Array.from([...own.map((at) => p[at]), ...rows]);
}
