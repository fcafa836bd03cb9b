import { advance, type LoopArrays, type LoopInputs } from './advance.ts';
import type { StepColumns } from './columns.ts';
import { compileParameters, compileSets, initialState } from './compile.ts';
import type { Controls } from './controls.ts';
import { fillInputs } from './fill-inputs.ts';
import type { Inputs } from './inputs.ts';
import { type Extremes, extremesFrom, type Totals, totalsFrom } from './ledger.ts';
import { makeArrays, NO_FAILS } from './loop-arrays.ts';
import { compileCabinets } from './more-cabinets.ts';
import type { Plant } from './plant.ts';
import { exchangeSets } from './second-set.ts';
import * as slot from './slots.ts';
import { takeThresholds } from './threshold-sets.ts';

/**
 * Where a site has got to: stored energy, temperatures, fuel, timers, a generator run under way. Made by a run and
 * taken by the next; what stands where is the engine's own affair.
 */
export interface SiteState {
  /** by the S_ slots */
  s: Float64Array;
  /** rows of the further cabinets, temperatures among them */
  more: Float64Array;
  /** of the battery that the stored energy is in [kWh] */
  capacityKwh: number;
}

/** What one stretch of a longer run yields. There is no list of runs and outages: those go on over its ends. */
export interface Stretch {
  totals: Totals;
  extremes: Extremes;
  /** at the end of the stretch, for the next one */
  state: SiteState;
}

/**
 * Runs a plant over a series from where an earlier run left it: two stretches give what their series in one give.
 * A battery of another capacity than before goes on at the same state of charge: what a fading one has lost, or a
 * new one has brought with it, is nobody's gain in the account of either stretch.
 * @param before  state at the end of the stretch before (unchanged); null: the plant's own start
 * @param after   series of the next stretch, in which loads that may wait find their next deadline; null: none
 * @param columns per-step columns to write, of the stretch's length; null: none
 */
export function carryOn(
  plant: Plant,
  controls: Controls,
  inputs: Inputs,
  before: SiteState | null,
  after: Inputs | null,
  columns: StepColumns | null,
): Stretch {
  const stepsPerDay = 1440 / inputs.stepMin;
  const arrays = arraysOf(plant, controls, inputs, before);
  const { p, s, more } = arrays;
  const filled = fillInputs(inputs);
  if (after) reachDeadlines(filled, inputs, after);
  for (let from = 0; from < inputs.count; from += stepsPerDay) {
    s[slot.S_RUN_COUNT] = 0;
    s[slot.S_OUTAGE_COUNT] = 0;
    advance(arrays, filled, columns, from, Math.min(from + stepsPerDay, inputs.count));
  }
  const state = { s, more, capacityKwh: p[slot.P_CAPACITY] };
  return { totals: totalsFrom(arrays.t, p), extremes: extremesFrom(arrays.x, p), state };
}

/** Arrays of a stretch; the log has room for a day, and is begun anew each day. */
function arraysOf(plant: Plant, controls: Controls, inputs: Inputs, before: SiteState | null): LoopArrays {
  const p = compileParameters(plant, controls, inputs.stepMin / 60);
  const sets = compileSets(p, controls.sets ?? []);
  const s = before ? stateFrom(before, p[slot.P_CAPACITY]) : initialState(plant);
  if (s[slot.S_SET] > 0) takeThresholds(p, s, sets, s[slot.S_SET]);
  if (s[slot.S_SECOND] === 1) exchangeSets(p);
  return makeArrays(p, s, Math.min(1440 / inputs.stepMin, inputs.count), {
    sets,
    more: cabinetsFrom(before, plant, inputs.stepMin / 60, p[slot.P_CAPACITY]),
    startFails: inputs.startFails ?? NO_FAILS,
  });
}

/** The state before, at the same state of charge in a battery of this capacity. */
function stateFrom(before: SiteState, capacityKwh: number): Float64Array {
  const s = before.s.slice();
  if (capacityKwh === before.capacityKwh) return s;
  for (const stored of [slot.S_E, slot.S_AT_HAND, slot.S_DRIFT])
    s[stored] *= capacityKwh / before.capacityKwh;
  return s;
}

/** Rows of the further cabinets as they were, but for what goes by the capacity. */
function cabinetsFrom(
  before: SiteState | null,
  plant: Plant,
  stepH: number,
  capacityKwh: number,
): Float64Array {
  const rows = compileCabinets(plant.batteryCabinets ?? [], stepH, capacityKwh);
  if (before === null || capacityKwh === before.capacityKwh) return before?.more.slice() ?? rows;
  const old = compileCabinets(plant.batteryCabinets ?? [], stepH, before.capacityKwh);
  return before.more.map((value, i) => value + (rows[i] - old[i]));
}

/** Steps after the last deadline of a stretch wait for the first one of the next. */
function reachDeadlines(
  { shiftHoursLeft }: LoopInputs,
  { shiftDeadline, count, stepMin }: Inputs,
  after: Inputs,
) {
  for (const [j, hoursLeft] of shiftHoursLeft.entries()) {
    const next = after.shiftDeadline?.[j].indexOf(1) ?? -1;
    const last = shiftDeadline?.[j].lastIndexOf(1) ?? -1;
    if (next >= 0)
      for (let i = Math.max(0, last); i < count; i++) hoursLeft[i] = ((count - i + next) * stepMin) / 60;
  }
}
