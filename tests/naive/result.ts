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
  outages: number;
  /** load dropped on purpose */
  shedKwh: number;
  shedH: number;
  /** shiftable load on surplus, before its deadline, and never run */
  shiftedKwh: number;
  shiftForcedKwh: number;
  shiftMissedKwh: number;
  climateKwh: number;
  coolerKwh: number;
  heaterKwh: number;
  /** what the generator set draws itself */
  ownKwh: number;
  generatorKwh: number;
  fuelL: number;
  /** of the second set, in the totals too */
  secondFuelL: number;
  secondRunH: number;
  runH: number;
  onLoadH: number;
  lowLoadH: number;
  nightH: number;
  /** hours on load by tenths of the rating */
  loadingH: number[];
  starts: number;
  /** in the order of START_CAUSES */
  startsByCause: number[];
  dcPotentialKwh: number;
  dcUsedKwh: number;
  acPotentialKwh: number;
  acUsedKwh: number;
  curtailedKwh: number;
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
  /** carried above the inverters' rating */
  overloadKwh: number;
  trips: number;
  lockOuts: number;
  failedAttempts: number;
  startLockOuts: number;
  visits: number;
  /** lowest at the end of a step; 0 without a battery */
  minSoc: number;
  floorH: number;
  cutoffH: number;
  deadH: number;
  deliveries: number;
  deliveredL: number;
  storedEndKwh: number;
  tankEndL: number;
  /** null without a tank */
  lowestTankL: number | null;
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
    outages: 0,
    shedKwh: 0,
    shedH: 0,
    shiftedKwh: 0,
    shiftForcedKwh: 0,
    shiftMissedKwh: 0,
    climateKwh: 0,
    coolerKwh: 0,
    heaterKwh: 0,
    ownKwh: 0,
    generatorKwh: 0,
    fuelL: 0,
    secondFuelL: 0,
    secondRunH: 0,
    runH: 0,
    onLoadH: 0,
    lowLoadH: 0,
    nightH: 0,
    loadingH: new Array(10).fill(0),
    starts: 0,
    startsByCause: START_CAUSES.map(() => 0),
    dcPotentialKwh: 0,
    dcUsedKwh: 0,
    acPotentialKwh: 0,
    acUsedKwh: 0,
    curtailedKwh: 0,
    chargeKwh: 0,
    dischargeKwh: 0,
    batteryLossKwh: 0,
    standbyKwh: 0,
    idleKwh: 0,
    inverterLossKwh: 0,
    chargerLossKwh: 0,
    frostKwh: 0,
    deratedKwh: 0,
    overloadKwh: 0,
    trips: 0,
    lockOuts: 0,
    failedAttempts: 0,
    startLockOuts: 0,
    visits: 0,
    minSoc: Number.POSITIVE_INFINITY,
    floorH: 0,
    cutoffH: 0,
    deadH: 0,
    deliveries: 0,
    deliveredL: 0,
    storedEndKwh: 0,
    tankEndL: 0,
    lowestTankL: null,
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
