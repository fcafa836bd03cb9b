/**
 * The step loop: one pass over the series, in the order of RULES.md. Parameters, state and totals are typed
 * arrays; nothing is allocated, and only + - * / sqrt min max and comparisons are used, so that the same
 * inputs give the same bits in every engine.
 */

import { checkAccount } from './account.ts';
import {
  bookChosenLoads,
  bookDerating,
  bookEngine,
  bookFlows,
  bookLoads,
  MODE_ALIVE,
  MODE_OFF,
} from './book.ts';
import type { StepColumns } from './columns.ts';
import { findGeneratorNeeds, flowFromGenerator } from './flows-generator.ts';
import { findInverterNeeds, flowFromInverters } from './flows-inverters.ts';
import { flowCutOff, flowDead } from './flows-off.ts';
import { fuelRateLPerH } from './fuel.ts';
import { readCabinets, stepCabinets } from './more-cabinets.ts';
import { drainBudgets, findDrains, setCarryLimits } from './overload.ts';
import { callPerson, callToBleed } from './people.ts';
import { advanceQuietly } from './quiet.ts';
import { canBeQuiet } from './quiet-entry.ts';
import { hasExtras } from './quiet-extras.ts';
import { chooseSet, firstSetIsOut, holdSecond } from './second-set.ts';
import { applyShedding } from './shedding.ts';
import { runOnSurplus } from './shiftable.ts';
import * as slot from './slots.ts';
import { decideGenerator, holdConditions, readConditions } from './start-stop.ts';
import { noteExercise, readMeter, runClocks } from './step-clock.ts';
import { findCaps, findOwnUse, readFlags, readStep } from './step-in.ts';
import { noteExtremes, sumStep, writeColumns } from './step-out.ts';
import { takeDeliveries } from './tank.ts';
import { takeThresholds } from './threshold-sets.ts';
import { breakDown, runTimers, segmentLength, settleTimers, standStill } from './timers.ts';
import { settleOverload, tripOnLoad } from './trips.ts';
import { findLimits, setThermostats, stepTemperatures } from './wants.ts';

/** The series of a run with nothing left out: absent ones are zeros, or ones for `attended` and `runWindow`. */
export interface LoopInputs {
  loadKw: readonly Float64Array[];
  sheddableKw: readonly Float64Array[];
  dcArrayKw: Float64Array;
  acArrayKw: Float64Array;
  airC: Float64Array;
  sunWPerM2: Float64Array;
  restricted: Uint8Array;
  night: Uint8Array;
  refill: Uint8Array;
  attended: Uint8Array;
  outOfOrder: Uint8Array;
  bypass: Uint8Array;
  runWindow: Uint8Array;
  exerciseDue: Uint8Array;
  thresholdSet: Uint8Array;
  unitsOut: readonly Uint8Array[];
  shiftDeadline: readonly Uint8Array[];
  /** hours to the next deadline at the start of every step */
  shiftHoursLeft: readonly Float64Array[];
  /** 1 in steps that are never quiet: something falls due, or is out of service */
  special: Uint8Array;
}

/** Everything that the loop writes, and what belongs to the plant beside its parameters. */
export interface LoopArrays {
  /** parameters, state, flows, totals, extremes, by the slots */
  p: Float64Array;
  s: Float64Array;
  f: Float64Array;
  t: Float64Array;
  x: Float64Array;
  runs: Float64Array;
  outages: Float64Array;
  /** further cabinets, their temperatures among them */
  more: Float64Array;
  /** sets of thresholds */
  sets: Float64Array;
  /** outcome of start attempts, in turn */
  startFails: Uint8Array;
}

/**
 * Advances the site over steps `from` (included) to `to` (not included).
 * Call it in day-sized chunks: the optimiser gives up on a whole year in one call.
 */
export function advance(
  arrays: LoopArrays,
  inputs: LoopInputs,
  columns: StepColumns | null,
  from: number,
  to: number,
): void {
  const { p, s, f, t, x, more } = arrays;
  const h = p[slot.P_STEP_H];
  for (let i = from; i < to; i++) {
    if (canBeQuiet(p, s, f, inputs.runWindow[i] === 1)) {
      i = advanceQuietly(arrays, inputs, columns, hasExtras(p, s, more), i, to);
      if (i === to) break;
    }
    f[slot.F_TIME] = i * h;
    if (inputs.thresholdSet[i] !== s[slot.S_SET]) takeThresholds(p, s, arrays.sets, inputs.thresholdSet[i]);
    if (p[slot.P_TANK] === 1) takeDeliveries(p, s, t, inputs.refill[i] === 1);
    callToBleed(p, s);
    reconnect(p, s);
    readFlags(f, inputs, i);
    readMeter(p, s, f);
    setClimate(arrays);
    readStep(p, s, f, t, inputs, i);
    const firstSetOut = decide(arrays, inputs.exerciseDue[i] === 1);
    let left = h;
    while (left > slot.EPS) {
      segment(arrays, left);
      left -= f[slot.F_DT];
      f[slot.F_TIME] += f[slot.F_DT];
    }
    if (p[slot.P_GENERATOR] === 1) holdConditions(p, s, f);
    if (p[slot.P_SECOND] === 1) holdSecond(p, s, firstSetOut);
    runClocks(p, s);
    if (s[slot.S_ORDERED] === 1) s[slot.S_LEAD] -= h;
    if (more.length > 0) stepCabinets(p, f, more);
    if (p[slot.P_CABINET] === 1) stepTemperatures(p, s, f, inputs.airC[i], inputs.sunWPerM2[i]);
    noteExtremes(p, s, f, t, x);
    if (columns !== null) writeColumns(p, s, f, columns, i);
  }
}

/** A cut-off site comes back when the battery has recovered enough. */
function reconnect(p: Float64Array, s: Float64Array): void {
  if (s[slot.S_SITE] !== slot.SITE_CUT_OFF || s[slot.S_E] < p[slot.P_E_RECONNECT] - slot.EPS) return;
  const atHand = p[slot.P_KINETIC_C] * p[slot.P_E_RECONNECT];
  if (p[slot.P_KINETIC] === 1 && s[slot.S_AT_HAND] < atHand - slot.EPS) return;
  s[slot.S_SITE] = slot.SITE_ON;
  s[slot.S_VISITED] = 0;
}

/** What temperatures allow, heaters and coolers of all cabinets for this step, and the generator set's own use. */
function setClimate({ p, s, f, more }: LoopArrays): void {
  if (more.length > 0) readCabinets(p, s, f, more);
  findLimits(p, s, f);
  if (p[slot.P_CABINET] === 1) setThermostats(p, s, f, f[slot.F_OUTSIDE], f[slot.F_SUN]);
  else f[slot.F_CLIMATE] = f[slot.F_HEATER_MORE] + f[slot.F_COOLER_MORE];
  findOwnUse(p, s, f);
  f[slot.F_CLIMATE] += f[slot.F_OWN];
}

/** The generator's part of a step's start. @returns whether the first set cannot run */
function decide({ p, s, f, runs }: LoopArrays, exerciseDue: boolean): boolean {
  if (p[slot.P_GENERATOR] === 0) return false;
  noteExercise(p, s, exerciseDue);
  const stopped = f[slot.F_OUT_OF_ORDER] === 1 && s[slot.S_SECOND] === 0 && breakDown(p, s, f, runs);
  const out = p[slot.P_SECOND] === 1 && firstSetIsOut(p, s, f);
  if (p[slot.P_SECOND] === 1 && chooseSet(p, s, f)) findCaps(p, f);
  readConditions(p, s, f);
  // nothing starts in the step in which an engine comes to a standstill
  if (!stopped) decideGenerator(p, s, f);
  return out;
}

/** How often, and how closely [L], the length of the last segment before a dry tank is worked out. */
const DRY_PASSES = 60;
const DRY_LITRES = 1e-12;

/** One stretch in which nothing is switched: flows found, booked, timers run. Its length is left in F_DT. */
function segment({ p, s, f, t, x, runs, outages, startFails }: LoopArrays, left: number): void {
  settleTimers(p, s, f, t, runs, startFails);
  if (p[slot.P_SHED_RULE] === 1) applyShedding(p, s, f);
  const onLoad = s[slot.S_GEN] === slot.GEN_ON_LOAD;
  const alive = s[slot.S_SITE] === slot.SITE_ON && p[slot.P_CAPACITY] > 0 && f[slot.F_BYPASS] === 0;
  const byInverters = alive && !onLoad;
  if (onLoad) {
    findGeneratorNeeds(p, s, f);
    if (p[slot.P_TRIP_RULE] === 1) tripOnLoad(p, s, f, t);
  } else if (alive) {
    setCarryLimits(p, s, f);
    findInverterNeeds(p, s, f);
    settleOverload(p, s, f, t);
  }
  if (p[slot.P_OVERLOAD] > 0) findDrains(p, f, byInverters);
  let dt = segmentLength(p, s, f, left, f[slot.F_ARRAY_AC_ALL] > 0);
  flow(p, s, f, dt, onLoad, alive);
  let fuelRate = 0;
  let runsDry = false;
  const running = s[slot.S_GEN] >= slot.GEN_WARMING;
  if (running) {
    fuelRate = fuelRateOf(p, f[slot.F_GEN_KW]);
    const usable = s[slot.S_TANK] - p[slot.P_TANK_RESERVE];
    if (p[slot.P_TANK] === 1 && s[slot.S_SECOND] === 0 && fuelRate * dt > usable + slot.EPS) {
      runsDry = true;
      // output may depend a little on the segment's length, and the length on the output
      for (let pass = 0; pass < DRY_PASSES && Math.abs(fuelRate * dt - usable) > DRY_LITRES; pass++) {
        dt = usable / fuelRate;
        f[slot.F_DT] = dt;
        if (onLoad) findGeneratorNeeds(p, s, f);
        flow(p, s, f, dt, onLoad, alive);
        fuelRate = fuelRateOf(p, f[slot.F_GEN_KW]);
      }
    }
  }
  f[slot.F_SHIFTED] = 0;
  if (byInverters && p[slot.P_SHIFTABLE] > 0) runOnSurplus(p, s, f, dt);
  const mode = onLoad || alive ? MODE_ALIVE : MODE_OFF;
  bookLoads(p, s, f, t, outages, mode);
  if (p[slot.P_CHECK] === 1) checkAccount(p, s, f, x, mode);
  bookFlows(p, s, f, t);
  if (running) bookEngine(p, s, f, t, fuelRate);
  bookChosenLoads(f, t);
  if (byInverters) bookDerating(p, s, f, t);
  if (s[slot.S_SITE] === slot.SITE_CUT_OFF) t[slot.T_CUTOFF_H] += dt;
  else if (s[slot.S_SITE] === slot.SITE_DEAD) t[slot.T_DEAD_H] += dt;
  sumStep(f, dt);
  if (p[slot.P_OVERLOAD] > 0) drainBudgets(p, s, f, t, dt);
  runTimers(s, dt);
  if (runsDry) standStill(p, s, f[slot.F_TIME] + dt, runs, true);
  loseSite(p, s, f, byInverters);
}

function flow(
  p: Float64Array,
  s: Float64Array,
  f: Float64Array,
  dt: number,
  onLoad: boolean,
  alive: boolean,
): void {
  if (onLoad) flowFromGenerator(p, s, f, dt);
  else if (alive) flowFromInverters(p, s, f, dt);
  else if (s[slot.S_SITE] === slot.SITE_DEAD) flowDead(s, f);
  else flowCutOff(p, s, f, dt);
}

function fuelRateOf(p: Float64Array, kw: number): number {
  return fuelRateLPerH(
    kw,
    p[slot.P_FUEL_BREAK_1],
    p[slot.P_FUEL_BREAK_2],
    p[slot.P_FUEL_LINES],
    p[slot.P_FUEL_LINES + 1],
    p[slot.P_FUEL_LINES + 2],
    p[slot.P_FUEL_LINES + 3],
    p[slot.P_FUEL_LINES + 4],
    p[slot.P_FUEL_LINES + 5],
  );
}

/** A battery out of energy cuts the site off; at the bottom its own protection opens. */
function loseSite(p: Float64Array, s: Float64Array, f: Float64Array, byInverters: boolean): void {
  if (byInverters && f[slot.F_SHORT] === slot.SHORT_ENERGY) s[slot.S_SITE] = slot.SITE_CUT_OFF;
  if (s[slot.S_SITE] !== slot.SITE_CUT_OFF || s[slot.S_VISITED] === 1) return;
  if (s[slot.S_E] > p[slot.P_E_DEAD] + slot.EPS) return;
  s[slot.S_SITE] = slot.SITE_DEAD;
  callPerson(p, s);
}
