/** Timers: what happens when one has run out, how far the next one is, and letting them run. */

import { closeRun } from './log.ts';
import { cutToBudgets } from './overload.ts';
import { callPerson, dismissIfIdle, isHere, putRight } from './people.ts';
import * as slot from './slots.ts';

/** Carries out what is due at this instant: engine runs, goes on load, stands still, a person arrives. */
export function settleTimers(
  p: Float64Array,
  s: Float64Array,
  f: Float64Array,
  t: Float64Array,
  runs: Float64Array,
  fails: Uint8Array,
): void {
  if (isHere(s, f)) putRight(p, s, t);
  while (s[slot.S_GEN] === slot.GEN_STARTING && s[slot.S_GEN_TIMER] <= slot.EPS) {
    if (startSucceeds(s, fails)) {
      s[slot.S_GEN] = slot.GEN_WARMING;
      s[slot.S_GEN_TIMER] = p[slot.P_WARM_UP];
      openRun(p, s, f, t);
    } else failStart(p, s, t);
  }
  if (s[slot.S_GEN] === slot.GEN_WARMING && s[slot.S_GEN_TIMER] <= slot.EPS) goOnLoad(p, s);
  if (s[slot.S_GEN] === slot.GEN_COOLING && s[slot.S_GEN_TIMER] <= slot.EPS)
    standStill(p, s, f[slot.F_TIME], runs, false);
}

/** The outcome of this attempt; the second set always starts. */
function startSucceeds(s: Float64Array, fails: Uint8Array): boolean {
  if (fails.length === 0 || s[slot.S_SECOND] === 1) return true;
  const fail = fails[s[slot.S_ATTEMPTS] % fails.length];
  s[slot.S_ATTEMPTS] += 1;
  return fail === 0;
}

/** Another attempt after a pause, or the set locks out until somebody comes. */
function failStart(p: Float64Array, s: Float64Array, t: Float64Array): void {
  t[slot.T_FAILED_ATTEMPTS] += 1;
  if (s[slot.S_ATTEMPT] < p[slot.P_RETRIES]) {
    s[slot.S_ATTEMPT] += 1;
    s[slot.S_GEN_TIMER] = p[slot.P_RETRY];
    return;
  }
  s[slot.S_GEN] = slot.GEN_STOPPED;
  s[slot.S_GEN_TIMER] = 0;
  s[slot.S_FAILED] = 1;
  t[slot.T_START_LOCKS] += 1;
  callPerson(p, s);
}

function openRun(p: Float64Array, s: Float64Array, f: Float64Array, t: Float64Array): void {
  t[slot.T_STARTS_BY + s[slot.S_CAUSE]] += 1;
  s[slot.S_RUN_START] = f[slot.F_TIME];
  s[slot.S_RUN_SOC] = p[slot.P_CAPACITY] > 0 ? s[slot.S_E] / p[slot.P_CAPACITY] : 0;
  s[slot.S_RUN_KWH] = 0;
  s[slot.S_RUN_LITRES] = 0;
  s[slot.S_ON_LOAD_H] = 0;
  s[slot.S_NO_RETURN] = 0;
}

function goOnLoad(p: Float64Array, s: Float64Array): void {
  formGrid(p, s);
  s[slot.S_ON_LOAD_H] = 0;
  s[slot.S_DUTY] = s[slot.S_CAUSE];
  s[slot.S_HELD_CALM] = 0;
  s[slot.S_TAIL] = 0;
  s[slot.S_ABSORB] = 0;
}

/** The generator takes the board, whatever the battery and the inverters did before. */
export function formGrid(p: Float64Array, s: Float64Array): void {
  s[slot.S_GEN] = slot.GEN_ON_LOAD;
  s[slot.S_GEN_TIMER] = 0;
  s[slot.S_SITE] = slot.SITE_ON;
  s[slot.S_VISITED] = 0;
  dismissIfIdle(s);
  if (s[slot.S_LOCKED] === 0) for (let k = 0; k < 3; k++) s[slot.S_TRIP + k] = 0;
  s[slot.S_AC_WAIT] = p[slot.P_AC_WAIT];
}

/** The engine stands: the run's record is closed and the rest begins. */
export function standStill(
  p: Float64Array,
  s: Float64Array,
  atH: number,
  runs: Float64Array,
  ranDry: boolean,
): void {
  closeRun(p, s, atH, runs, ranDry);
  if (s[slot.S_GEN] === slot.GEN_ON_LOAD) s[slot.S_AC_WAIT] = p[slot.P_AC_WAIT];
  s[slot.S_GEN] = slot.GEN_STOPPED;
  s[slot.S_GEN_TIMER] = 0;
  s[slot.S_REST] = p[slot.P_REST];
  s[slot.S_NO_RETURN] = 0;
  if (ranDry && p[slot.P_BLEED] === 1) s[slot.S_UNBLED] = 1;
}

/**
 * Out of order from here: a start is given up, an engine that runs stops at once.
 * @returns whether it ran
 */
export function breakDown(p: Float64Array, s: Float64Array, f: Float64Array, runs: Float64Array): boolean {
  if (s[slot.S_GEN] >= slot.GEN_WARMING) {
    standStill(p, s, f[slot.F_TIME], runs, false);
    return true;
  }
  if (s[slot.S_GEN] === slot.GEN_STARTING) {
    s[slot.S_GEN] = slot.GEN_STOPPED;
    s[slot.S_GEN_TIMER] = 0;
  }
  return false;
}

/** Length of the next segment: what is left of the step, cut where a running timer ends [h]. */
export function segmentLength(
  p: Float64Array,
  s: Float64Array,
  f: Float64Array,
  leftH: number,
  hasAcArray: boolean,
): number {
  let dt = leftH;
  const gen = s[slot.S_GEN];
  if (gen !== slot.GEN_STOPPED && gen !== slot.GEN_ON_LOAD) dt = Math.min(dt, s[slot.S_GEN_TIMER]);
  if (hasAcArray) dt = cutTo(dt, s[slot.S_AC_WAIT]);
  dt = cutTo(dt, s[slot.S_TRIP]);
  dt = cutTo(dt, s[slot.S_TRIP + 1]);
  dt = cutTo(dt, s[slot.S_TRIP + 2]);
  if (s[slot.S_CALLED] === 1) dt = cutTo(dt, s[slot.S_VISIT]);
  dt = cutTo(dt, s[slot.S_SHED_TIMER]);
  if (p[slot.P_OVERLOAD] > 0) dt = cutToBudgets(p, s, f, dt);
  f[slot.F_DT] = dt;
  return dt;
}

function cutTo(dt: number, timer: number): number {
  return timer > slot.EPS && timer < dt ? timer : dt;
}

/** Lets every running timer fall by the segment's length. */
export function runTimers(s: Float64Array, dt: number): void {
  const gen = s[slot.S_GEN];
  if (gen === slot.GEN_ON_LOAD) s[slot.S_ON_LOAD_H] += dt;
  else if (gen !== slot.GEN_STOPPED) s[slot.S_GEN_TIMER] -= dt;
  s[slot.S_REST] = Math.max(0, s[slot.S_REST] - dt);
  s[slot.S_AC_WAIT] = Math.max(0, s[slot.S_AC_WAIT] - dt);
  s[slot.S_TRIP] = Math.max(0, s[slot.S_TRIP] - dt);
  s[slot.S_TRIP + 1] = Math.max(0, s[slot.S_TRIP + 1] - dt);
  s[slot.S_TRIP + 2] = Math.max(0, s[slot.S_TRIP + 2] - dt);
  s[slot.S_VISIT] = Math.max(0, s[slot.S_VISIT] - dt);
  s[slot.S_SHED_TIMER] = Math.max(0, s[slot.S_SHED_TIMER] - dt);
  s[slot.S_SINCE_TRIP] += dt;
}
