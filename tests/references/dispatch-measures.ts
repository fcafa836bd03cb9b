import { OUTAGE_ENERGY, OUTAGE_TANK_DRY } from '../../src/sim/causes.ts';

/** What a simulation must tell for the closed-form cases; energies in kWh over the run. */
export interface DispatchRun {
  totals: {
    loadKwh: number;
    servedKwh: number;
    unservedKwh: number;
    unservedByCauseKwh: ArrayLike<number>;
    unservedH: number;
    generatorKwh: number;
    fuelL: number;
    runH: number;
    dcPotentialKwh: number;
    dcUsedKwh: number;
    acPotentialKwh: number;
    acUsedKwh: number;
    chargeKwh: number;
    dischargeKwh: number;
    batteryLossKwh: number;
    inverterLossKwh: number;
    chargerLossKwh: number;
    idleKwh: number;
    standbyKwh: number;
    storedEndKwh: number;
  };
  runs: readonly { startH: number }[];
  outages: readonly { startH: number }[];
}

/** Quantities that the cases state, each worked out from a finished run. NaN where the thing never happened. */
export const MEASURES = {
  starts: (run: DispatchRun) => run.runs.length,
  runH: (run: DispatchRun) => run.totals.runH,
  fuelL: (run: DispatchRun) => run.totals.fuelL,
  generatorKwh: (run: DispatchRun) => run.totals.generatorKwh,
  servedKwh: (run: DispatchRun) => run.totals.servedKwh,
  unservedKwh: (run: DispatchRun) => run.totals.unservedKwh,
  unservedEnergyKwh: (run: DispatchRun) => run.totals.unservedByCauseKwh[OUTAGE_ENERGY],
  unservedTankDryKwh: (run: DispatchRun) => run.totals.unservedByCauseKwh[OUTAGE_TANK_DRY],
  unservedH: (run: DispatchRun) => run.totals.unservedH,
  /** the first instant without full supply [h] */
  firstUnservedH: (run: DispatchRun) => run.outages[0]?.startH ?? Number.NaN,
  curtailedKwh: ({ totals }: DispatchRun) =>
    totals.dcPotentialKwh + totals.acPotentialKwh - totals.dcUsedKwh - totals.acUsedKwh,
  chargeKwh: (run: DispatchRun) => run.totals.chargeKwh,
  dischargeKwh: (run: DispatchRun) => run.totals.dischargeKwh,
  /** all that was lost on the way */
  lossKwh: ({ totals }: DispatchRun) =>
    totals.batteryLossKwh +
    totals.inverterLossKwh +
    totals.chargerLossKwh +
    totals.idleKwh +
    totals.standbyKwh,
} as const;

export type Measure = keyof typeof MEASURES;
