import type { Controls } from '../../src/sim/controls.ts';
import type { Inputs } from '../../src/sim/inputs.ts';
import type { Generator, Plant } from '../../src/sim/plant.ts';
import { EPS, NearMiss } from './near-miss.ts';
import {
  emptySteps,
  emptyTotals,
  type NaiveOutage,
  type NaiveRun,
  type NaiveSteps,
  type NaiveTotals,
} from './result.ts';
import { type Place, type SiteState, startState } from './state.ts';

/** Sums over the present step [kWh], for means and for the cabinets. */
export interface StepSums {
  generatorKwh: number;
  unservedKwh: number;
  dcUsedKwh: number;
  acUsedKwh: number;
  batteryKwh: number;
  airLossKwh: number;
  batteryLossKwh: number;
  /** of each place */
  heaterKwh: number[];
  coolerKwh: number[];
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

export const noSums = (places: number): StepSums => ({
  generatorKwh: 0,
  unservedKwh: 0,
  dcUsedKwh: 0,
  acUsedKwh: 0,
  batteryKwh: 0,
  airLossKwh: 0,
  batteryLossKwh: 0,
  heaterKwh: new Array(places).fill(0),
  coolerKwh: new Array(places).fill(0),
});

export function newSite(plant: Plant, controls: Controls, inputs: Inputs): Site {
  const state = startState(plant);
  return {
    plant,
    controls,
    inputs,
    stepH: inputs.stepMin / 60,
    step: 0,
    nowH: 0,
    state,
    sums: noSums(state.places.length),
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

/** The generator set that is connected: it must be there. */
export const setInUse = ({ plant, state }: Site): Generator =>
  state.secondInUse ? plant.secondGenerator!.generator : plant.generator!;

export const socOf = (site: Site): number =>
  site.plant.battery ? site.state.energyKwh / site.plant.battery.capacityKwh : 0;

/** A place counts only if something of the battery stands in it. */
export const placesWithBattery = ({ state }: Site): Place[] =>
  state.places.filter(({ batteryShare }) => batteryShare > EPS);

/** Fuel of the first set that can still be burnt [L]; without a tank, no end of it. */
export const fuelLeftL = (site: Site): number =>
  site.plant.tank ? site.state.levelL - site.plant.tank.reserveL : Number.POSITIVE_INFINITY;

export const isAttended = ({ inputs, step }: Site): boolean => inputs.attended?.[step] !== 0;

export const isBypassed = ({ inputs, step }: Site): boolean => inputs.bypass?.[step] === 1;

export const isOutOfOrder = ({ inputs, step }: Site): boolean => inputs.outOfOrder?.[step] === 1;

export const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

export const clamp = (value: number, low: number, high: number): number =>
  Math.min(high, Math.max(low, value));
