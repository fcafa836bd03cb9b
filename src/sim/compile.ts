import { thermalStep } from './cabinet.ts';
import type { Controls } from './controls.ts';
import { fuelStretches } from './fuel.ts';
import type { Battery, Cabinet, Generator, Inverter, Plant, Tank } from './plant.ts';
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
  if (plant.generator) setGenerator(p, plant.generator, plant.inverter, plant.phases);
  if (plant.tank) setTank(p, plant.tank);
  if (plant.cabinet) setCabinet(p, plant.cabinet, stepH, plant.battery?.capacityKwh ?? 0);
  setControls(p, controls, plant.battery?.capacityKwh ?? 0, plant.battery !== null);
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
}

function setGenerator(p: Float64Array, generator: Generator, inverter: Inverter, phases: number): void {
  p[slot.P_GENERATOR] = 1;
  p[slot.P_GEN_RATED] = generator.ratedKw;
  p[slot.P_GEN_CAP] = Math.min(generator.ratedKw / phases, inverter.acInputLimitKw);
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

function setControls(p: Float64Array, controls: Controls, capacityKwh: number, hasBattery: boolean): void {
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
}
