import { advance, type LoopArrays, type LoopInputs } from './advance.ts';
import type { StepColumns } from './columns.ts';
import { compileParameters, initialState } from './compile.ts';
import type { Controls } from './controls.ts';
import type { Inputs } from './inputs.ts';
import { type Extremes, extremesFrom, type Totals, totalsFrom } from './ledger.ts';
import { OUTAGE_FIELDS, RUN_FIELDS } from './log.ts';
import type { Plant } from './plant.ts';
import * as slot from './slots.ts';

/**
 * Where a site has got to: stored energy, temperatures, fuel, timers, a generator run under way. Made by a run and
 * taken by the next; what stands where is the engine's own affair.
 */
export type SiteState = Float64Array;

/** What one stretch of a longer run yields. There is no list of runs and outages: those go on over its ends. */
export interface Stretch {
  totals: Totals;
  extremes: Extremes;
  /** at the end of the stretch, for the next one */
  state: SiteState;
}

/**
 * Runs a plant over a series from where an earlier run left it: two stretches give what their series in one give.
 * @param before  state at the end of the stretch before (unchanged); null: the plant's own start
 * @param columns per-step columns to write, of the stretch's length; null: none
 */
export function carryOn(
  plant: Plant,
  controls: Controls,
  inputs: Inputs,
  before: SiteState | null,
  columns: StepColumns | null,
): Stretch {
  const p = compileParameters(plant, controls, inputs.stepMin / 60);
  const arrays = makeArrays(
    p,
    before?.slice() ?? initialState(plant),
    Math.min(stepsPerDay(inputs), inputs.count),
  );
  const filled = fillInputs(inputs);
  for (let from = 0; from < inputs.count; from += stepsPerDay(inputs)) {
    arrays.s[slot.S_RUN_COUNT] = 0;
    arrays.s[slot.S_OUTAGE_COUNT] = 0;
    advance(arrays, filled, columns, from, Math.min(from + stepsPerDay(inputs), inputs.count));
  }
  return { totals: totalsFrom(arrays.t, p), extremes: extremesFrom(arrays.x, p), state: arrays.s };
}

/**
 * The same site with more or less capacity, at the same state of charge: what a fading battery has lost, or a new
 * one has brought with it, is nobody's gain in the account of either stretch.
 * @param capacityRatio new over old, > 0
 */
export function withCapacity(state: SiteState, capacityRatio: number): SiteState {
  const changed = state.slice();
  changed[slot.S_E] *= capacityRatio;
  return changed;
}

/** No step has more segments than this: a restart delay is at least a minute, a step at most sixty. */
const SEGMENTS_PER_STEP = 70;

function stepsPerDay({ stepMin }: Inputs): number {
  return 1440 / stepMin;
}

/** Arrays of a stretch; the log has room for a day, and is begun anew each day. */
function makeArrays(p: Float64Array, s: SiteState, steps: number): LoopArrays {
  const x = new Float64Array(slot.X_SIZE);
  x[slot.X_MIN_SOC] = Number.POSITIVE_INFINITY;
  x[slot.X_COLDEST_CELL] = Number.POSITIVE_INFINITY;
  x[slot.X_HOTTEST_CELL] = Number.NEGATIVE_INFINITY;
  x[slot.X_HOTTEST_AIR] = Number.NEGATIVE_INFINITY;
  x[slot.X_LOWEST_TANK] = s[slot.S_TANK];
  return {
    p,
    s,
    f: new Float64Array(slot.F_SIZE),
    t: new Float64Array(slot.T_SIZE),
    x,
    runs: new Float64Array(RUN_FIELDS * 2 * steps),
    outages: new Float64Array(OUTAGE_FIELDS * SEGMENTS_PER_STEP * steps),
  };
}

/** Absent series are zeros: no array, no restricted hours, a shaded cabinet. */
function fillInputs(inputs: Inputs): LoopInputs {
  const none = new Float64Array(inputs.count);
  const never = new Uint8Array(inputs.count);
  const refill = new Uint8Array(inputs.count);
  for (const step of inputs.refillSteps ?? []) refill[step] = 1;
  return {
    loadKw: inputs.loadKw,
    dcArrayKw: inputs.dcArrayKw ?? none,
    acArrayKw: inputs.acArrayKw ?? none,
    airC: inputs.airC ?? none,
    sunWPerM2: inputs.cabinetSunWPerM2 ?? none,
    restricted: inputs.restricted ?? never,
    night: inputs.night ?? never,
    refill,
  };
}
