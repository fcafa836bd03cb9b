import { OUTAGE_CAUSES, type OutageCause, START_CAUSES, type StartCause } from './causes.ts';
import { OUTAGE_FIELDS, RUN_FIELDS } from './log.ts';
import * as slot from './slots.ts';

/** What a run yields. */
export interface Ledger {
  stepMin: number;
  count: number;
  totals: Totals;
  /** the same sums for each period asked for (months), in order */
  periods: Totals[];
  extremes: Extremes;
  /** every generator run, in order */
  runs: GeneratorRun[];
  /** every stretch with unserved load, in order */
  outages: Outage[];
  storedStartKwh: number;
  storedEndKwh: number;
  tankEndL: number;
}

/** Sums over a run or a period. Energies in kWh, hours in h, fuel in litres. */
export interface Totals {
  loadKwh: number;
  servedKwh: number;
  unservedKwh: number;
  unservedByPhaseKwh: number[];
  unservedByCauseKwh: Record<OutageCause, number>;
  /** load dropped on purpose when charge was low, and for how long */
  shedKwh: number;
  shedH: number;
  /** shiftable load that ran on surplus, that had to run before its deadline (both are load), and that never ran */
  shiftedKwh: number;
  shiftForcedKwh: number;
  shiftMissedKwh: number;
  /** time with any load unserved, part steps counted */
  unservedH: number;
  outages: number;
  generatorKwh: number;
  fuelL: number;
  /** engine running: warm-up, on load, cool-down */
  runH: number;
  onLoadH: number;
  /** engine running below 30 % of its rating */
  lowLoadH: number;
  /** engine running in the hours of the night */
  nightH: number;
  /** hours on load by tenths of the rating */
  loadingH: number[];
  starts: number;
  startsByCause: Record<StartCause, number>;
  /** array output on offer, used, and the difference */
  dcPotentialKwh: number;
  dcUsedKwh: number;
  acPotentialKwh: number;
  acUsedKwh: number;
  curtailedKwh: number;
  /** battery, DC side */
  chargeKwh: number;
  dischargeKwh: number;
  batteryLossKwh: number;
  standbyKwh: number;
  idleKwh: number;
  inverterLossKwh: number;
  chargerLossKwh: number;
  climateKwh: number;
  coolerKwh: number;
  heaterKwh: number;
  /** array energy refused because cells were too cold or too hot */
  frostKwh: number;
  /** load above the derated but within the full inverter limit */
  deratedKwh: number;
  /** carried above the inverters' rating by their short-overload budget */
  overloadKwh: number;
  trips: number;
  /** inverters locked out by trips in a row; start attempts that failed, and generators locked out by them */
  lockOuts: number;
  failedAttempts: number;
  startLockOuts: number;
  /** persons who came because they were called */
  visits: number;
  /** used by the generator set's own charger, controller and block heater */
  ownKwh: number;
  /** litres and hours of the second set, which are in the totals too */
  secondFuelL: number;
  secondRunH: number;
  /** hours with the battery at its cut-off at the end of the step; hours of a site cut off, and dead */
  floorH: number;
  cutoffH: number;
  deadH: number;
  deliveries: number;
  deliveredL: number;
}

export interface Extremes {
  /** null without a battery */
  minSoc: number | null;
  coldestCellC: number;
  hottestCellC: number;
  hottestAirC: number;
  /** null without a tank */
  lowestTankL: number | null;
  /** largest error of the energy account of any segment [kWh]; null when the run was not asked to check */
  residualKwh: number | null;
}

/** One generator run; times in hours from the start of the series. */
export interface GeneratorRun {
  startH: number;
  endH: number;
  onLoadH: number;
  cause: StartCause;
  socStart: number;
  socEnd: number;
  kwh: number;
  litres: number;
  /** kWh per hour on load; null when it never went on load */
  meanKw: number | null;
  ranDry: boolean;
}

export interface Outage {
  startH: number;
  endH: number;
  kwh: number;
  cause: OutageCause;
}

/**
 * Named totals from the loop's sums.
 * @param t sums by the T_ slots; @param p parameters by the P_ slots
 */
export function totalsFrom(t: Float64Array, p: Float64Array): Totals {
  const phases = p[slot.P_PHASES];
  const unservedByPhaseKwh = Array.from(t.subarray(slot.T_UNSERVED, slot.T_UNSERVED + phases));
  const unservedKwh = unservedByPhaseKwh.reduce((sum, kwh) => sum + kwh, 0);
  const startsByCause = named(START_CAUSES, t, slot.T_STARTS_BY);
  const dischargeLoss = p[slot.P_CAPACITY] > 0 ? 1 / p[slot.P_DISCHARGE_EFF] - 1 : 0;
  const loadKwh = t[slot.T_LOAD] + t[slot.T_SHIFTED] + t[slot.T_SHIFT_FORCED];
  return {
    loadKwh,
    servedKwh: loadKwh - unservedKwh - t[slot.T_SHED],
    shedKwh: t[slot.T_SHED],
    shedH: t[slot.T_SHED_H],
    shiftedKwh: t[slot.T_SHIFTED],
    shiftForcedKwh: t[slot.T_SHIFT_FORCED],
    shiftMissedKwh: t[slot.T_SHIFT_MISSED],
    unservedKwh,
    unservedByPhaseKwh,
    unservedByCauseKwh: named(OUTAGE_CAUSES, t, slot.T_UNSERVED_BY),
    unservedH: t[slot.T_UNSERVED_H],
    outages: t[slot.T_OUTAGES],
    generatorKwh: t[slot.T_GEN],
    fuelL: t[slot.T_FUEL],
    runH: t[slot.T_RUN_H],
    onLoadH: t[slot.T_ON_LOAD_H],
    lowLoadH: t[slot.T_LOW_LOAD_H],
    nightH: t[slot.T_NIGHT_H],
    loadingH: Array.from(t.subarray(slot.T_LOADING_H, slot.T_LOADING_H + 10)),
    starts: Object.values(startsByCause).reduce((sum, count) => sum + count, 0),
    startsByCause,
    dcPotentialKwh: t[slot.T_DC_POTENTIAL],
    dcUsedKwh: t[slot.T_DC_USED],
    acPotentialKwh: t[slot.T_AC_POTENTIAL],
    acUsedKwh: t[slot.T_AC_USED],
    curtailedKwh: t[slot.T_DC_POTENTIAL] - t[slot.T_DC_USED] + t[slot.T_AC_POTENTIAL] - t[slot.T_AC_USED],
    chargeKwh: t[slot.T_CHARGE],
    dischargeKwh: t[slot.T_DISCHARGE],
    batteryLossKwh: t[slot.T_CHARGE] * (1 - p[slot.P_CHARGE_EFF]) + t[slot.T_DISCHARGE] * dischargeLoss,
    standbyKwh: t[slot.T_STANDBY],
    idleKwh: t[slot.T_IDLE],
    inverterLossKwh: t[slot.T_INV_LOSS],
    chargerLossKwh: t[slot.T_CHARGER_AC] * (1 - p[slot.P_CHARGER_EFF]),
    climateKwh: t[slot.T_CLIMATE],
    coolerKwh: t[slot.T_COOLER],
    heaterKwh: t[slot.T_HEATER],
    frostKwh: t[slot.T_FROST],
    deratedKwh: t[slot.T_DERATED],
    overloadKwh: t[slot.T_OVERLOAD],
    trips: t[slot.T_TRIPS],
    lockOuts: t[slot.T_LOCKS],
    failedAttempts: t[slot.T_FAILED_ATTEMPTS],
    startLockOuts: t[slot.T_START_LOCKS],
    visits: t[slot.T_VISITS],
    ownKwh: t[slot.T_OWN],
    secondFuelL: t[slot.T_SECOND_FUEL],
    secondRunH: t[slot.T_SECOND_H],
    floorH: t[slot.T_FLOOR_H],
    cutoffH: t[slot.T_CUTOFF_H],
    deadH: t[slot.T_DEAD_H],
    deliveries: t[slot.T_DELIVERIES],
    deliveredL: t[slot.T_DELIVERED],
  };
}

/** Named extremes from the loop's. */
export function extremesFrom(x: Float64Array, p: Float64Array): Extremes {
  return {
    minSoc: p[slot.P_CAPACITY] > 0 ? x[slot.X_MIN_SOC] : null,
    coldestCellC: x[slot.X_COLDEST_CELL],
    hottestCellC: x[slot.X_HOTTEST_CELL],
    hottestAirC: x[slot.X_HOTTEST_AIR],
    lowestTankL: p[slot.P_TANK] === 1 ? x[slot.X_LOWEST_TANK] : null,
    residualKwh: p[slot.P_CHECK] === 1 ? x[slot.X_RESIDUAL] : null,
  };
}

/** Generator runs from the log's rows. */
export function runsFrom(rows: Float64Array, count: number): GeneratorRun[] {
  return Array.from({ length: count }, (_, i) => {
    const row = rows.subarray(i * RUN_FIELDS, (i + 1) * RUN_FIELDS);
    const [startH, endH, onLoadH, cause, socStart, socEnd, kwh, litres, dry] = row;
    const meanKw = onLoadH > 0 ? kwh / onLoadH : null;
    const ranDry = dry === 1;
    return {
      startH,
      endH,
      onLoadH,
      cause: START_CAUSES[cause],
      socStart,
      socEnd,
      kwh,
      litres,
      meanKw,
      ranDry,
    };
  });
}

/** Outages from the log's rows. */
export function outagesFrom(rows: Float64Array, count: number): Outage[] {
  return Array.from({ length: count }, (_, i) => {
    const [startH, endH, kwh, cause] = rows.subarray(i * OUTAGE_FIELDS, (i + 1) * OUTAGE_FIELDS);
    return { startH, endH, kwh, cause: OUTAGE_CAUSES[cause] };
  });
}

function named<Name extends string>(
  names: readonly Name[],
  t: Float64Array,
  from: number,
): Record<Name, number> {
  return Object.fromEntries(names.map((name, i) => [name, t[from + i]])) as Record<Name, number>;
}
