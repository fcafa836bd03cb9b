/**
 * The step loop: one pass over the series, in the order of RULES.md. Parameters, state and totals are typed
 * arrays; nothing is allocated, and only + - * / sqrt min max and comparisons are used, so that the same
 * inputs give the same bits in every engine.
 */

import { checkAccount } from './account.ts';
import { bookDerating, bookEngine, bookFlows, bookLoads, MODE_ALIVE, MODE_OFF } from './book.ts';
import type { StepColumns } from './columns.ts';
import { findGeneratorNeeds, flowFromGenerator } from './flows-generator.ts';
import { findInverterNeeds, flowFromInverters } from './flows-inverters.ts';
import { flowCutOff, flowDead } from './flows-off.ts';
import { fuelRateLPerH } from './fuel.ts';
import { advanceQuietly } from './quiet.ts';
import * as slot from './slots.ts';
import { decideGenerator, holdConditions, readConditions } from './start-stop.ts';
import { noteExtremes, sumStep, writeColumns } from './step-out.ts';
import { takeDeliveries } from './tank.ts';
import { runTimers, segmentLength, settleTimers, standStill } from './timers.ts';
import { tripInverters, tripOnLoad } from './trips.ts';
import { findLimits, setThermostats, stepTemperatures } from './wants.ts';

/** The series of a run with nothing left out: absent ones are zeros (see `fillInputs`). */
export interface LoopInputs {
  loadKw: readonly Float64Array[];
  dcArrayKw: Float64Array;
  acArrayKw: Float64Array;
  airC: Float64Array;
  sunWPerM2: Float64Array;
  restricted: Uint8Array;
  night: Uint8Array;
  refill: Uint8Array;
}

/** Everything that the loop writes. */
export interface LoopArrays {
  /** parameters, state, flows, totals, extremes, by the slots */
  p: Float64Array;
  s: Float64Array;
  f: Float64Array;
  t: Float64Array;
  x: Float64Array;
  runs: Float64Array;
  outages: Float64Array;
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
  const { p, s, f, t, x, runs, outages } = arrays;
  const h = p[slot.P_STEP_H];
  for (let i = from; i < to; i++) {
    i = advanceQuietly(arrays, inputs, columns, i, to);
    if (i === to) break;
    if (p[slot.P_TANK] === 1) takeDeliveries(p, s, t, inputs.refill[i] === 1);
    reconnect(p, s);
    findLimits(p, s, f);
    if (p[slot.P_CABINET] === 1) setThermostats(p, s, f, inputs.airC[i], inputs.sunWPerM2[i]);
    readStep(p, f, t, inputs, i);
    if (p[slot.P_GENERATOR] === 1) {
      readConditions(p, s, f);
      decideGenerator(p, s, f);
    }
    f[slot.F_TIME] = i * h;
    let left = h;
    while (left > slot.EPS) {
      segment(p, s, f, t, x, runs, outages, left);
      left -= f[slot.F_DT];
      f[slot.F_TIME] += f[slot.F_DT];
    }
    if (p[slot.P_GENERATOR] === 1) holdConditions(p, s, f);
    if (s[slot.S_ORDERED] === 1) s[slot.S_LEAD] -= h;
    if (p[slot.P_CABINET] === 1) stepTemperatures(p, s, f, inputs.airC[i], inputs.sunWPerM2[i]);
    noteExtremes(p, s, t, x, h);
    if (columns !== null) writeColumns(p, s, f, columns, i);
  }
}

/** A cut-off site comes back when the battery has recovered enough. */
function reconnect(p: Float64Array, s: Float64Array): void {
  if (s[slot.S_SITE] !== slot.SITE_CUT_OFF || s[slot.S_E] < p[slot.P_E_RECONNECT] - slot.EPS) return;
  s[slot.S_SITE] = slot.SITE_ON;
  s[slot.S_VISITED] = 0;
}

/** This step's series, and sums of the step before set to nothing. */
function readStep(p: Float64Array, f: Float64Array, t: Float64Array, inputs: LoopInputs, i: number): void {
  const phases = p[slot.P_PHASES];
  const h = p[slot.P_STEP_H];
  const climate = f[slot.F_CLIMATE] / phases;
  const arrayAc = inputs.acArrayKw[i];
  for (let k = 0; k < phases; k++) {
    const load = inputs.loadKw[k][i];
    f[slot.F_LOAD + k] = load;
    f[slot.F_WANT + k] = load + climate;
    f[slot.F_ARRAY_AC + k] = arrayAc * p[slot.P_SHARE + k];
    t[slot.T_LOAD] += load * h;
  }
  f[slot.F_ARRAY_DC] = inputs.dcArrayKw[i];
  f[slot.F_ARRAY_AC_ALL] = arrayAc;
  f[slot.F_RESTRICTED] = inputs.restricted[i];
  f[slot.F_NIGHT] = inputs.night[i];
  t[slot.T_DC_POTENTIAL] += f[slot.F_ARRAY_DC] * h;
  t[slot.T_AC_POTENTIAL] += arrayAc * h;
  for (let j = slot.F_HEAT_AIR_KWH; j <= slot.F_STEP_RAN; j++) f[j] = 0;
}

/** How often, and how closely [L], the length of the last segment before a dry tank is worked out. */
const DRY_PASSES = 60;
const DRY_LITRES = 1e-12;

/** One stretch in which nothing is switched: flows found, booked, timers run. Its length is left in F_DT. */
function segment(
  p: Float64Array,
  s: Float64Array,
  f: Float64Array,
  t: Float64Array,
  x: Float64Array,
  runs: Float64Array,
  outages: Float64Array,
  left: number,
): void {
  settleTimers(p, s, f, t, runs);
  const onLoad = s[slot.S_GEN] === slot.GEN_ON_LOAD;
  const alive = s[slot.S_SITE] === slot.SITE_ON && p[slot.P_CAPACITY] > 0;
  if (onLoad) {
    findGeneratorNeeds(p, s, f);
    if (p[slot.P_TRIP_RULE] === 1) tripOnLoad(p, s, f, t);
  } else if (alive) {
    findInverterNeeds(p, s, f);
    if (p[slot.P_TRIP_RULE] === 1) tripInverters(p, s, f, t);
  }
  let dt = segmentLength(s, f, left, f[slot.F_ARRAY_AC_ALL] > 0);
  flow(p, s, f, dt, onLoad, alive);
  let fuelRate = 0;
  let runsDry = false;
  const running = s[slot.S_GEN] >= slot.GEN_WARMING;
  if (running) {
    fuelRate = fuelRateOf(p, f[slot.F_GEN_KW]);
    const usable = s[slot.S_TANK] - p[slot.P_TANK_RESERVE];
    if (p[slot.P_TANK] === 1 && fuelRate * dt > usable + slot.EPS) {
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
  const mode = onLoad || alive ? MODE_ALIVE : MODE_OFF;
  bookLoads(p, s, f, t, outages, mode);
  if (p[slot.P_CHECK] === 1) checkAccount(p, s, f, x, mode);
  bookFlows(p, s, f, t);
  if (running) bookEngine(p, s, f, t, fuelRate);
  if (mode === MODE_ALIVE && !onLoad) bookDerating(p, s, f, t);
  if (s[slot.S_SITE] === slot.SITE_CUT_OFF) t[slot.T_CUTOFF_H] += dt;
  else if (s[slot.S_SITE] === slot.SITE_DEAD) t[slot.T_DEAD_H] += dt;
  sumStep(f, dt);
  runTimers(s, dt);
  if (runsDry) standStill(p, s, f[slot.F_TIME] + dt, runs, true);
  loseSite(p, s, f, alive && !onLoad);
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
  s[slot.S_VISIT] = p[slot.P_VISIT];
}
