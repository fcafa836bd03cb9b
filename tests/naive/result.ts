import { OUTAGE_CAUSES, START_CAUSES } from '../../src/sim/causes.ts';

/** Sums over a run: kWh, h, L, °C or counts as their names say. */
export interface NaiveTotals {
  loadKwh: number;
  servedKwh: number;
  unservedKwh: number;
  unservedByPhaseKwh: number[];
  /** in the order of OUTAGE_CAUSES */
  unservedByCauseKwh: number[];
  unservedH: number;
  climateServedKwh: number;
  coolerKwh: number;
  heaterKwh: number;
  generatorKwh: number;
  fuelL: number;
  runH: number;
  onLoadH: number;
  lowLoadH: number;
  nightH: number;
  /** hours on load by tenths of the rating */
  loadingH: number[];
  /** in the order of START_CAUSES */
  startsByCause: number[];
  dcPotentialKwh: number;
  dcUsedKwh: number;
  acPotentialKwh: number;
  acUsedKwh: number;
  /** on the DC side */
  chargeKwh: number;
  dischargeKwh: number;
  batteryLossKwh: number;
  standbyKwh: number;
  idleKwh: number;
  inverterLossKwh: number;
  chargerLossKwh: number;
  frostKwh: number;
  deratedKwh: number;
  trips: number;
  /** lowest at the end of a step; 0 without a battery */
  minSoc: number;
  floorH: number;
  cutoffH: number;
  deadH: number;
  deliveries: number;
  deliveredL: number;
  storedEndKwh: number;
  tankEndL: number;
  coldestCellC: number;
  hottestCellC: number;
  hottestAirC: number;
  /** largest amount by which the energy account of a segment does not close */
  worstResidualKwh: number;
}

/** A stretch of the engine running; hours from the start of the simulation. */
export interface NaiveRun {
  startH: number;
  endH: number;
  onLoadH: number;
  /** index in START_CAUSES */
  cause: number;
  socStart: number;
  socEnd: number;
  kwh: number;
  litres: number;
  ranDry: boolean;
}

export interface NaiveOutage {
  startH: number;
  endH: number;
  kwh: number;
  /** index in OUTAGE_CAUSES */
  cause: number;
}

/** Powers are means of the step, states are at its end; battery power counts charging as positive. */
export interface NaiveSteps {
  soc: Float64Array;
  generatorKw: Float64Array;
  unservedKw: Float64Array;
  dcUsedKw: Float64Array;
  acUsedKw: Float64Array;
  batteryKw: Float64Array;
  airNodeC: Float64Array;
  batteryNodeC: Float64Array;
}

export interface NaiveResult {
  totals: NaiveTotals;
  runs: NaiveRun[];
  outages: NaiveOutage[];
  perStep: NaiveSteps;
  /** smallest distance of any compared quantity from another outcome, in the unit compared: see near-miss.ts */
  nearest: number;
}

export function emptyTotals(phases: number): NaiveTotals {
  return {
    loadKwh: 0,
    servedKwh: 0,
    unservedKwh: 0,
    unservedByPhaseKwh: new Array(phases).fill(0),
    unservedByCauseKwh: OUTAGE_CAUSES.map(() => 0),
    unservedH: 0,
    climateServedKwh: 0,
    coolerKwh: 0,
    heaterKwh: 0,
    generatorKwh: 0,
    fuelL: 0,
    runH: 0,
    onLoadH: 0,
    lowLoadH: 0,
    nightH: 0,
    loadingH: new Array(10).fill(0),
    startsByCause: START_CAUSES.map(() => 0),
    dcPotentialKwh: 0,
    dcUsedKwh: 0,
    acPotentialKwh: 0,
    acUsedKwh: 0,
    chargeKwh: 0,
    dischargeKwh: 0,
    batteryLossKwh: 0,
    standbyKwh: 0,
    idleKwh: 0,
    inverterLossKwh: 0,
    chargerLossKwh: 0,
    frostKwh: 0,
    deratedKwh: 0,
    trips: 0,
    minSoc: Number.POSITIVE_INFINITY,
    floorH: 0,
    cutoffH: 0,
    deadH: 0,
    deliveries: 0,
    deliveredL: 0,
    storedEndKwh: 0,
    tankEndL: 0,
    coldestCellC: Number.POSITIVE_INFINITY,
    hottestCellC: Number.NEGATIVE_INFINITY,
    hottestAirC: Number.NEGATIVE_INFINITY,
    worstResidualKwh: 0,
  };
}

export function emptySteps(count: number): NaiveSteps {
  return {
    soc: new Float64Array(count),
    generatorKw: new Float64Array(count),
    unservedKw: new Float64Array(count),
    dcUsedKw: new Float64Array(count),
    acUsedKw: new Float64Array(count),
    batteryKw: new Float64Array(count),
    airNodeC: new Float64Array(count),
    batteryNodeC: new Float64Array(count),
  };
}
