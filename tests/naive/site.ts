import type { Controls } from '../../src/sim/controls.ts';
import type { Inputs } from '../../src/sim/inputs.ts';
import type { Plant } from '../../src/sim/plant.ts';
import { EPS, NearMiss } from './near-miss.ts';
import {
  emptySteps,
  emptyTotals,
  type NaiveOutage,
  type NaiveRun,
  type NaiveSteps,
  type NaiveTotals,
} from './result.ts';

type EngineState = 'stopped' | 'starting' | 'warming' | 'on load' | 'cooling';

/** All that changes during a run. Times are what is left of a countdown unless said otherwise [h]. */
export interface SiteState {
  site: 'on' | 'cut off' | 'dead';
  visited: boolean;
  visitH: number;
  energyKwh: number;
  levelL: number;
  /** null: nothing on order */
  orderH: number | null;
  airC: number;
  batteryC: number;
  /** heat of the last step's losses [kW] */
  airLossKw: number;
  batteryLossKw: number;
  frozen: boolean;
  heaterOn: boolean;
  coolerOn: boolean;
  engine: EngineState;
  /** of starting, warming or cooling */
  engineH: number;
  restH: number;
  cause: number;
  duty: number;
  /** since going on load */
  timeOnLoadH: number;
  endedByLongestRun: boolean;
  /** grown so far */
  tailH: number;
  absorptionH: number;
  heldChargeH: number;
  heldPeakH: number;
  heldCalmH: number;
  arrayWaitH: number;
  tripH: number[];
  run: NaiveRun | null;
  outage: NaiveOutage | null;
}

/** Sums over the present step [kWh], for means and for the cabinet. */
export interface StepSums {
  generatorKwh: number;
  unservedKwh: number;
  dcUsedKwh: number;
  acUsedKwh: number;
  batteryKwh: number;
  airLossKwh: number;
  batteryLossKwh: number;
  heaterKwh: number;
  coolerKwh: number;
}

/** One run: what was given, where it stands, what has come of it. */
export interface Site {
  plant: Plant;
  controls: Controls;
  inputs: Inputs;
  stepH: number;
  step: number;
  /** hours from the start of the run */
  nowH: number;
  state: SiteState;
  sums: StepSums;
  totals: NaiveTotals;
  runs: NaiveRun[];
  outages: NaiveOutage[];
  perStep: NaiveSteps;
  watch: NearMiss;
}

export const noSums = (): StepSums => ({
  generatorKwh: 0,
  unservedKwh: 0,
  dcUsedKwh: 0,
  acUsedKwh: 0,
  batteryKwh: 0,
  airLossKwh: 0,
  batteryLossKwh: 0,
  heaterKwh: 0,
  coolerKwh: 0,
});

export function newSite(plant: Plant, controls: Controls, inputs: Inputs): Site {
  const startC = plant.cabinet?.initialC ?? plant.roomC;
  return {
    plant,
    controls,
    inputs,
    stepH: inputs.stepMin / 60,
    step: 0,
    nowH: 0,
    state: {
      site: 'on',
      visited: false,
      visitH: 0,
      energyKwh: plant.battery ? plant.battery.initialSoc * plant.battery.capacityKwh : 0,
      levelL: plant.tank?.initialL ?? 0,
      orderH: null,
      airC: startC,
      batteryC: startC,
      airLossKw: 0,
      batteryLossKw: 0,
      frozen: false,
      heaterOn: false,
      coolerOn: false,
      engine: 'stopped',
      engineH: 0,
      restH: 0,
      cause: -1,
      duty: -1,
      timeOnLoadH: 0,
      endedByLongestRun: false,
      tailH: 0,
      absorptionH: 0,
      heldChargeH: 0,
      heldPeakH: 0,
      heldCalmH: 0,
      arrayWaitH: 0,
      tripH: new Array(plant.phases).fill(0),
      run: null,
      outage: null,
    },
    sums: noSums(),
    totals: emptyTotals(plant.phases),
    runs: [],
    outages: [],
    perStep: emptySteps(inputs.count),
    watch: new NearMiss(),
  };
}

export const phasesOf = (site: Site): number[] => Array.from({ length: site.plant.phases }, (_, k) => k);

export const isTripped = (site: Site, phase: number): boolean => site.state.tripH[phase] > EPS;

export const engineRuns = (state: SiteState): boolean =>
  state.engine === 'warming' || state.engine === 'on load' || state.engine === 'cooling';

export const socOf = (site: Site): number =>
  site.plant.battery ? site.state.energyKwh / site.plant.battery.capacityKwh : 0;

/** Fuel that can still be burnt [L]; without a tank, no end of it. */
export const fuelLeftL = (site: Site): number =>
  site.plant.tank ? site.state.levelL - site.plant.tank.reserveL : Number.POSITIVE_INFINITY;

export const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

export const clamp = (value: number, low: number, high: number): number =>
  Math.min(high, Math.max(low, value));
