import type { Controls } from '../../src/sim/controls.ts';
import type { Inputs } from '../../src/sim/inputs.ts';
import type { Battery, Generator, Inverter, Plant } from '../../src/sim/plant.ts';

/** One complete run to be simulated. */
export interface System {
  plant: Plant;
  controls: Controls;
  inputs: Inputs;
}

/**
 * The parts of a single-phase site with everything switched off that the closed-form cases leave out: no delays,
 * no taper, no idle or standby draw, no loss but the battery's one-way efficiencies, no cabinet.
 */
export function plainBattery(capacityKwh: number, oneWayEff: number, parts: Partial<Battery> = {}): Battery {
  return {
    capacityKwh,
    initialSoc: 1,
    cutoffSoc: 0,
    reconnectSoc: 0,
    deadSoc: -1,
    maxChargeKw: 1000,
    maxDischargeKw: 1000,
    taperStartSoc: 1,
    taperEndFrac: 1,
    chargeEff: oneWayEff,
    dischargeEff: oneWayEff,
    standbyKw: 0,
    chargeNoneC: 0,
    chargeFullC: 10,
    chargeHotFullC: 45,
    chargeHotNoneC: 55,
    thawMarginC: 1,
    ...parts,
  };
}

export function plainInverter(parts: Partial<Inverter> = {}): Inverter {
  return {
    ratedKw: 100,
    idleKw: 0,
    lossLinear: 0,
    lossQuadraticPerKw: 0,
    chargerKw: 100,
    chargerEff: 1,
    acInputLimitKw: 1000,
    derateKneeC: 40,
    derateC: 60,
    derateFrac: 0.5,
    ...parts,
  };
}

/** Fuel 2 L/h + 0.25 L/kWh, the straight line common to all cases. */
export function plainGenerator(ratedKw: number, parts: Partial<Generator> = {}): Generator {
  return {
    ratedKw,
    fuelKw: [0, ratedKw],
    fuelLPerH: [2, 2 + 0.25 * ratedKw],
    startDelayH: 0,
    warmUpH: 0,
    coolDownH: 0,
    minLoadFrac: 0,
    blackStart: true,
    ...parts,
  };
}

export function plainPlant(parts: Partial<Plant>): Plant {
  return {
    phases: 1,
    battery: null,
    inverter: plainInverter(),
    acArrayShare: [1],
    generator: null,
    tank: null,
    cabinet: null,
    roomC: 20,
    ...parts,
  };
}

export function plainControls(parts: Partial<Controls> = {}): Controls {
  return {
    shortfall: 'partial',
    tripAllPhases: false,
    restartDelayH: 0.1,
    deadVisitH: 24,
    charge: null,
    peak: null,
    continuous: false,
    minRunH: 0,
    maxRunH: Number.POSITIVE_INFINITY,
    leastRestH: 0,
    restrictedEndsRun: false,
    urgentSoc: -1,
    peakAssist: false,
    acArrayOnLoad: 'off',
    acReconnectH: 0,
    dcToAcOnLoad: false,
    ...parts,
  };
}

/** Charge between two states of charge, with no delay and no other end. */
export function chargeBetween(startSoc: number, stopSoc: number): Partial<Controls> {
  const charge = {
    startSoc,
    delayH: 0,
    stopSoc,
    tailKw: 0,
    tailH: 0,
    absorptionMaxH: Number.POSITIVE_INFINITY,
  };
  return { charge };
}

/** A power that is `baseKw` all day but for the hours from `fromH` to `toH`, when it is `blockKw` [kW]. */
export interface Daily {
  baseKw: number;
  blockKw?: number;
  fromH?: number;
  toH?: number;
}

/** Steps of one phase with a load and arrays of the same shape every day; hours must be whole steps. */
export function dailyInputs(
  stepMin: number,
  hours: number,
  loadKw: Daily,
  arrays: { dc?: Daily; ac?: Daily } = {},
): Inputs {
  const count = Math.round((hours * 60) / stepMin);
  const inputs: Inputs = { stepMin, count, loadKw: [dailySeries(stepMin, count, loadKw)] };
  if (arrays.dc) inputs.dcArrayKw = dailySeries(stepMin, count, arrays.dc);
  if (arrays.ac) inputs.acArrayKw = dailySeries(stepMin, count, arrays.ac);
  return inputs;
}

function dailySeries(stepMin: number, count: number, daily: Daily): Float64Array {
  const { baseKw, blockKw = baseKw, fromH = 0, toH = 0 } = daily;
  return Float64Array.from({ length: count }, (_, step) => {
    const minuteOfDay = (step * stepMin) % 1440;
    return minuteOfDay >= fromH * 60 && minuteOfDay < toH * 60 ? blockKw : baseKw;
  });
}
