import { advance, type LoopArrays, type LoopInputs } from './advance.ts';
import type { StepColumns } from './columns.ts';
import { compileParameters, compileSets, initialState } from './compile.ts';
import type { Controls } from './controls.ts';
import { fillInputs } from './fill-inputs.ts';
import type { Inputs } from './inputs.ts';
import { type Extremes, extremesFrom, type Totals, totalsFrom } from './ledger.ts';
import { OUTAGE_FIELDS, RUN_FIELDS } from './log.ts';
import { compileCabinets } from './more-cabinets.ts';
import type { Plant } from './plant.ts';
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
  const arrays = makeArrays(plant, controls, inputs, before);
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

/** No step has more segments than this, as in simulate.ts. */
const SEGMENTS_PER_STEP = 200;
const NO_FAILS = new Uint8Array(0);

/** Arrays of a stretch; the log has room for a day, and is begun anew each day. */
function makeArrays(plant: Plant, controls: Controls, inputs: Inputs, before: SiteState | null): LoopArrays {
  const p = compileParameters(plant, controls, inputs.stepMin / 60);
  const sets = compileSets(p, controls.sets ?? []);
  const s = before ? stateFrom(before, p[slot.P_CAPACITY]) : initialState(plant);
  if (s[slot.S_SET] > 0) takeThresholds(p, s, sets, s[slot.S_SET]);
  if (s[slot.S_SECOND] === 1) exchangeSets(p);
  const steps = Math.min(1440 / inputs.stepMin, inputs.count);
  return {
    ...{ p, s, sets },
    f: new Float64Array(slot.F_SIZE),
    t: new Float64Array(slot.T_SIZE),
    x: freshExtremes(s),
    runs: new Float64Array(RUN_FIELDS * 2 * steps),
    outages: new Float64Array(OUTAGE_FIELDS * SEGMENTS_PER_STEP * steps),
    more: cabinetsFrom(before, plant, inputs.stepMin / 60, p[slot.P_CAPACITY]),
    startFails: inputs.startFails ?? NO_FAILS,
  };
}

/** The second set's engine in force, and the first one's beside it, as `second-set.ts` left them. */
function exchangeSets(p: Float64Array): void {
  const length = slot.P_BLACK_START + 1 - slot.P_GEN_RATED;
  const first = p.slice(slot.P_GEN_RATED, slot.P_GEN_RATED + length);
  p.copyWithin(slot.P_GEN_RATED, slot.P_OTHER_SET, slot.P_OTHER_SET + length);
  p.set(first, slot.P_OTHER_SET);
}

function freshExtremes(s: Float64Array): Float64Array {
  const x = new Float64Array(slot.X_SIZE);
  x[slot.X_MIN_SOC] = Number.POSITIVE_INFINITY;
  x[slot.X_COLDEST_CELL] = Number.POSITIVE_INFINITY;
  x[slot.X_HOTTEST_CELL] = Number.NEGATIVE_INFINITY;
  x[slot.X_HOTTEST_AIR] = Number.NEGATIVE_INFINITY;
  x[slot.X_LOWEST_TANK] = s[slot.S_TANK];
  return x;
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
