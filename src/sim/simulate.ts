import { advance, type LoopArrays } from './advance.ts';
import type { StepColumns } from './columns.ts';
import { compileParameters, compileSets, initialState } from './compile.ts';
import type { Controls } from './controls.ts';
import { fillInputs } from './fill-inputs.ts';
import type { Inputs } from './inputs.ts';
import { extremesFrom, type Ledger, outagesFrom, runsFrom, totalsFrom } from './ledger.ts';
import { closeOutage, closeRun, OUTAGE_FIELDS, RUN_FIELDS } from './log.ts';
import { makeArrays, mostSegments, NO_FAILS, type RunLog } from './loop-arrays.ts';
import { compileCabinets } from './more-cabinets.ts';
import type { Plant } from './plant.ts';
import * as slot from './slots.ts';
import { warmUp } from './warm-up.ts';

export interface RunOptions {
  /** per-step columns to write, of the run's length */
  columns?: StepColumns;
  /** steps (not included) at which periods end, rising; sums are given for each period */
  periodEnds?: readonly number[];
  /** check the energy account of every segment: see `extremes.residualKwh` */
  check?: boolean;
  /** room for the log that many runs use in turn: grown where it is too small; what is in it is of no use to anybody */
  log?: RunLog;
}

/**
 * Runs a plant under its controls over a series, and returns its ledger.
 * @param inputs series of any length on a step of whole minutes that divides 60
 * Errors: throws on inputs of unequal length or a step that does not divide an hour: these are our own bugs,
 * for a user's files are checked where they are read.
 */
export function simulate(plant: Plant, controls: Controls, inputs: Inputs, options: RunOptions = {}): Ledger {
  checkInputs(plant, inputs);
  const stepsPerDay = (24 * 60) / inputs.stepMin;
  if (inputs.count > LONG_RUN_STEPS)
    warmUp((arrays, small, from, to) => advance(arrays, small, null, from, to), makeArrays);
  const p = compileParameters(plant, controls, inputs.stepMin / 60);
  p[slot.P_CHECK] = Number(options.check === true);
  const arrays = makeArrays(p, initialState(plant), stepsPerDay, {
    more: compileCabinets(plant.batteryCabinets ?? [], inputs.stepMin / 60, plant.battery?.capacityKwh ?? 0),
    sets: compileSets(p, controls.sets ?? []),
    startFails: inputs.startFails ?? NO_FAILS,
    log: options.log,
  });
  const filled = fillInputs(inputs);
  const periodSums: Float64Array[] = [];
  const ends = options.periodEnds ?? [];
  let nextPeriod = 0;
  for (let from = 0; from < inputs.count; ) {
    let to = Math.min(from + stepsPerDay, inputs.count);
    if (nextPeriod < ends.length) to = Math.min(to, ends[nextPeriod]);
    makeRoom(arrays, to - from);
    advance(arrays, filled, options.columns ?? null, from, to);
    from = to;
    if (nextPeriod < ends.length && to === ends[nextPeriod]) {
      periodSums.push(arrays.t.slice());
      nextPeriod++;
    }
  }
  closeLog(arrays, (inputs.count * inputs.stepMin) / 60);
  if (options.log) Object.assign(options.log, { runs: arrays.runs, outages: arrays.outages });
  return {
    stepMin: inputs.stepMin,
    count: inputs.count,
    totals: totalsFrom(arrays.t, p),
    periods: periodSums.map((sums, i) => totalsFrom(i === 0 ? sums : difference(sums, periodSums[i - 1]), p)),
    extremes: extremesFrom(arrays.x, p),
    runs: runsFrom(arrays.runs, arrays.s[slot.S_RUN_COUNT]),
    outages: outagesFrom(arrays.outages, arrays.s[slot.S_OUTAGE_COUNT]),
    storedStartKwh: initialState(plant)[slot.S_E],
    storedEndKwh: arrays.s[slot.S_E],
    tankEndL: arrays.s[slot.S_TANK],
  };
}

/** Above this many steps the loop is shown every branch first, so that the optimiser sees them all. */
const LONG_RUN_STEPS = 50_000;

function checkInputs(plant: Plant, inputs: Inputs): void {
  if (60 % inputs.stepMin !== 0) throw new Error(`a step of ${inputs.stepMin} min does not divide an hour`);
  if (inputs.loadKw.length !== plant.phases)
    throw new Error(`${inputs.loadKw.length} loads for ${plant.phases} phases`);
  const { dcArrayKw, acArrayKw, airC, cabinetSunWPerM2, restricted, night } = inputs;
  const series = [...inputs.loadKw, dcArrayKw, acArrayKw, airC, cabinetSunWPerM2, restricted, night];
  for (const values of series)
    if (values && values.length !== inputs.count)
      throw new Error(`a series of ${values.length} values for ${inputs.count} steps`);
  if (plant.cabinet && !airC) throw new Error('a cabinet needs the air temperature');
}

/** Grows the log so that the next steps cannot overfill it. */
function makeRoom(arrays: LoopArrays, steps: number): void {
  const runsNeeded = (arrays.s[slot.S_RUN_COUNT] + 2 * steps) * RUN_FIELDS;
  if (arrays.runs.length < runsNeeded) arrays.runs = grown(arrays.runs, runsNeeded);
  const outagesNeeded =
    (arrays.s[slot.S_OUTAGE_COUNT] + mostSegments(arrays.p[slot.P_STEP_H]) * steps) * OUTAGE_FIELDS;
  if (arrays.outages.length < outagesNeeded) arrays.outages = grown(arrays.outages, outagesNeeded);
}

function grown(old: Float64Array, needed: number): Float64Array {
  const larger = new Float64Array(Math.max(needed, 2 * old.length));
  larger.set(old);
  return larger;
}

function closeLog(arrays: LoopArrays, endH: number): void {
  const { p, s, runs, outages } = arrays;
  if (s[slot.S_GEN] >= slot.GEN_WARMING) closeRun(p, s, endH, runs, false);
  if (s[slot.S_OUTAGE_OPEN] === 1) closeOutage(s, endH, outages);
}

function difference(later: Float64Array, earlier: Float64Array): Float64Array {
  return later.map((value, i) => value - earlier[i]);
}
