/**
 * When the generator starts and stops: the raw conditions, how long each has held, which causes ask, and the
 * decision at the start of a step. RULES.md section 4 is the same in words.
 */
import {
  CAUSE_BYPASS,
  CAUSE_CHARGE,
  CAUSE_CONTINUOUS,
  CAUSE_EXERCISE,
  CAUSE_FULL,
  CAUSE_HAND,
  CAUSE_PEAK,
} from './causes.ts';
import { dcDrawKw } from './inverter.ts';
import { firstSetIsOut } from './second-set.ts';
import * as slot from './slots.ts';
import { formGrid } from './timers.ts';

const NOT_ASKED = Number.POSITIVE_INFINITY;
const NO_CAUSE = -1;

/** Low charge, peak, calm, and what a person would start for, as they are at the start of this step. */
export function readConditions(p: Float64Array, s: Float64Array, f: Float64Array): void {
  const shown = f[slot.F_SHOWN_E];
  f[slot.F_LOW_CHARGE] = Number(p[slot.P_CHARGE_RULE] === 1 && shown <= p[slot.P_START_E] + slot.EPS);
  const low = shown <= p[slot.P_HAND_START_E] + slot.EPS || s[slot.S_SITE] !== slot.SITE_ON;
  f[slot.F_HAND] = Number(p[slot.P_HAND_RULE] === 1 && low);
  if (p[slot.P_PEAK_RULE] === 1) readPeak(p, s, f);
}

function readPeak(p: Float64Array, s: Float64Array, f: Float64Array): void {
  const start = p[slot.P_PEAK_START] + slot.EPS;
  const stop = p[slot.P_PEAK_STOP] + slot.EPS;
  const linear = p[slot.P_LOSS_LINEAR];
  const quadratic = p[slot.P_LOSS_QUADRATIC];
  let over = 0;
  let under = 1;
  let needDraw = f[slot.F_IDLE_NOW] + p[slot.P_STANDBY];
  let wantDraw = needDraw;
  for (let k = 0; k < p[slot.P_PHASES]; k++) {
    const limit = f[slot.F_INV_LIMIT + k] + slot.EPS;
    const want = f[slot.F_WANT + k];
    const array = s[slot.S_TRIP + k] > slot.EPS ? 0 : f[slot.F_ARRAY_AC + k];
    const need = Math.max(0, want - array);
    if (need > start || need > limit) over = 1;
    if (want > stop || want > limit) under = 0;
    needDraw += dcDrawKw(need, linear, quadratic);
    wantDraw += dcDrawKw(want, linear, quadratic);
  }
  const dcLimit = p[slot.P_DISCHARGE_KW] + f[slot.F_ARRAY_DC] + slot.EPS;
  f[slot.F_PEAK] = Number(s[slot.S_SITE] === slot.SITE_ON && (over === 1 || needDraw > dcLimit));
  f[slot.F_CALM] = Number(under === 1 && wantDraw <= dcLimit);
}

/** At the end of a step: how long each condition has been true at the start of every step up to now. */
export function holdConditions(p: Float64Array, s: Float64Array, f: Float64Array): void {
  const h = p[slot.P_STEP_H];
  s[slot.S_HELD_CHARGE] = f[slot.F_LOW_CHARGE] === 1 ? s[slot.S_HELD_CHARGE] + h : 0;
  s[slot.S_HELD_PEAK] = f[slot.F_PEAK] === 1 ? s[slot.S_HELD_PEAK] + h : 0;
  s[slot.S_HELD_HAND] = f[slot.F_HAND] === 1 ? s[slot.S_HELD_HAND] + h : 0;
  const inPeakRun = s[slot.S_GEN] === slot.GEN_ON_LOAD && s[slot.S_DUTY] === CAUSE_PEAK;
  s[slot.S_HELD_CALM] = inPeakRun && f[slot.F_CALM] === 1 ? s[slot.S_HELD_CALM] + h : 0;
}

/** The decision of this step; starts and stops are carried out by the timers of the step's segments. */
export function decideGenerator(p: Float64Array, s: Float64Array, f: Float64Array): void {
  findWaits(p, s, f);
  const gen = s[slot.S_GEN];
  if (gen === slot.GEN_STOPPED) considerStart(p, s, f);
  else if (gen === slot.GEN_ON_LOAD) considerStop(p, s, f);
  else if (gen === slot.GEN_COOLING) considerReturn(p, s, f);
}

/** How long each cause would still wait [h]; those that do not ask in this step: without end. */
function findWaits(p: Float64Array, s: Float64Array, f: Float64Array): void {
  const restricted = f[slot.F_RESTRICTED] === 1;
  const free = isUrgent(p, f);
  const mayCharge = free || (!restricted && s[slot.S_FROZEN] === 0);
  const isDue = p[slot.P_FULL_RULE] === 1 && s[slot.S_SINCE_FULL] >= p[slot.P_FULL_EVERY] - slot.EPS;
  const atHome = f[slot.F_HAND] === 1 && f[slot.F_ATTENDED] === 1;
  f[slot.F_WAIT + CAUSE_BYPASS] = f[slot.F_BYPASS] === 1 ? 0 : NOT_ASKED;
  f[slot.F_WAIT + CAUSE_HAND] = atHome ? rest(p[slot.P_HAND_RESPONSE], s[slot.S_HELD_HAND]) : NOT_ASKED;
  f[slot.F_WAIT + CAUSE_CHARGE] =
    f[slot.F_LOW_CHARGE] === 1 && mayCharge ? rest(p[slot.P_CHARGE_DELAY], s[slot.S_HELD_CHARGE]) : NOT_ASKED;
  f[slot.F_WAIT + CAUSE_PEAK] =
    f[slot.F_PEAK] === 1 ? rest(p[slot.P_PEAK_DELAY], s[slot.S_HELD_PEAK]) : NOT_ASKED;
  f[slot.F_WAIT + CAUSE_FULL] = isDue && mayCharge ? 0 : NOT_ASKED;
  f[slot.F_WAIT + CAUSE_EXERCISE] = s[slot.S_EXERCISE_DUE] === 1 && (free || !restricted) ? 0 : NOT_ASKED;
  f[slot.F_WAIT + CAUSE_CONTINUOUS] = p[slot.P_CONTINUOUS] === 1 && f[slot.F_WINDOW] === 1 ? 0 : NOT_ASKED;
  const most = p[slot.P_STEP_H] - slot.EPS;
  for (let c = 0; c <= CAUSE_CONTINUOUS; c++) if (f[slot.F_WAIT + c] >= most) f[slot.F_WAIT + c] = NOT_ASKED;
}

function rest(delayH: number, heldH: number): number {
  return Math.max(0, delayH - heldH);
}

function considerStart(p: Float64Array, s: Float64Array, f: Float64Array): void {
  if (s[slot.S_SITE] === slot.SITE_DEAD || (s[slot.S_SECOND] === 0 && firstSetIsOut(p, s, f))) return;
  // a dead board gives no automatic start without the set's own battery; a person needs none
  const awake = s[slot.S_SITE] === slot.SITE_ON || p[slot.P_BLACK_START] === 1 || s[slot.S_VISITED] === 1;
  if (!awake)
    for (let c = 0; c <= CAUSE_CONTINUOUS; c++) if (c !== CAUSE_HAND) f[slot.F_WAIT + c] = NOT_ASKED;
  const wait = shortestWait(f);
  if (wait === NOT_ASKED) return;
  const countdown = Math.max(wait, s[slot.S_REST]);
  if (countdown >= p[slot.P_STEP_H] - slot.EPS) return;
  s[slot.S_CAUSE] = firstCauseWithin(wait, f, NO_CAUSE);
  s[slot.S_GEN] = slot.GEN_STARTING;
  s[slot.S_GEN_TIMER] = countdown + p[slot.P_START_DELAY];
  s[slot.S_ATTEMPT] = 0;
}

function considerStop(p: Float64Array, s: Float64Array, f: Float64Array): void {
  if (asksBefore(s, f, CAUSE_BYPASS)) takeDuty(s, CAUSE_BYPASS);
  else if (asksBefore(s, f, CAUSE_CHARGE)) takeDuty(s, CAUSE_CHARGE);
  const onLoadH = s[slot.S_ON_LOAD_H];
  if (onLoadH >= p[slot.P_MAX_RUN] - slot.EPS) {
    s[slot.S_NO_RETURN] = 1;
    stopGenerator(p, s);
    return;
  }
  if (onLoadH < p[slot.P_MIN_RUN] - slot.EPS || !isSatisfied(p, s, f)) return;
  const other = firstCauseWithin(0, f, s[slot.S_DUTY]);
  if (other !== NO_CAUSE) takeDuty(s, other);
  else stopGenerator(p, s);
}

function asksBefore(s: Float64Array, f: Float64Array, cause: number): boolean {
  return s[slot.S_DUTY] > cause && f[slot.F_WAIT + cause] <= slot.EPS;
}

function considerReturn(p: Float64Array, s: Float64Array, f: Float64Array): void {
  const asking = firstCauseWithin(0, f, NO_CAUSE);
  const out = s[slot.S_SECOND] === 0 && firstSetIsOut(p, s, f);
  if (asking === NO_CAUSE || s[slot.S_NO_RETURN] === 1 || out) return;
  formGrid(p, s);
  takeDuty(s, asking);
}

function isSatisfied(p: Float64Array, s: Float64Array, f: Float64Array): boolean {
  switch (s[slot.S_DUTY]) {
    case CAUSE_BYPASS:
      return f[slot.F_BYPASS] === 0;
    case CAUSE_HAND:
      return (
        f[slot.F_SHOWN_E] >= p[slot.P_HAND_STOP_E] - slot.EPS ||
        s[slot.S_ABSORB] >= p[slot.P_HAND_ABSORB_H] - slot.EPS
      );
    case CAUSE_CHARGE:
      return chargeIsDone(p, s, f) || isHeldBack(p, s, f);
    case CAUSE_PEAK:
      return f[slot.F_CALM] === 1 && s[slot.S_HELD_CALM] >= p[slot.P_PEAK_HOLD] - slot.EPS;
    case CAUSE_FULL:
      return fullIsDone(p, s) || isHeldBack(p, s, f);
    case CAUSE_EXERCISE:
      return s[slot.S_ON_LOAD_H] >= p[slot.P_EXERCISE_RUN] - slot.EPS;
    default:
      return f[slot.F_WINDOW] === 0;
  }
}

function chargeIsDone(p: Float64Array, s: Float64Array, f: Float64Array): boolean {
  if (f[slot.F_SHOWN_E] >= p[slot.P_STOP_E] - slot.EPS) return true;
  if (p[slot.P_TAIL_KW] > 0 && s[slot.S_TAIL] >= p[slot.P_TAIL_H] - slot.EPS) return true;
  return s[slot.S_ABSORB] >= p[slot.P_ABSORB_H] - slot.EPS;
}

/** Done, and the time to the next one counts from here. */
function fullIsDone(p: Float64Array, s: Float64Array): boolean {
  const isFull = s[slot.S_E] >= p[slot.P_FULL_STOP_E] - slot.EPS;
  if (!isFull && s[slot.S_ABSORB] < p[slot.P_FULL_ABSORB_H] - slot.EPS) return false;
  s[slot.S_SINCE_FULL] = 0;
  return true;
}

/** Frost, or restricted hours that end runs, unless it is urgent. */
function isHeldBack(p: Float64Array, s: Float64Array, f: Float64Array): boolean {
  if (isUrgent(p, f)) return false;
  return s[slot.S_FROZEN] === 1 || (f[slot.F_RESTRICTED] === 1 && p[slot.P_RESTRICTED_ENDS] === 1);
}

function shortestWait(f: Float64Array): number {
  let wait = NOT_ASKED;
  for (let c = 0; c <= CAUSE_CONTINUOUS; c++) wait = Math.min(wait, f[slot.F_WAIT + c]);
  return wait;
}

/** The first cause in precedence, but for `not`, that asks with no more than this wait. */
function firstCauseWithin(wait: number, f: Float64Array, not: number): number {
  const most = wait + slot.EPS;
  for (let c = 0; c <= CAUSE_CONTINUOUS; c++) if (c !== not && f[slot.F_WAIT + c] <= most) return c;
  return NO_CAUSE;
}

function isUrgent(p: Float64Array, f: Float64Array): boolean {
  return f[slot.F_SHOWN_E] <= p[slot.P_URGENT_E] + slot.EPS;
}

function takeDuty(s: Float64Array, cause: number): void {
  s[slot.S_DUTY] = cause;
  s[slot.S_TAIL] = 0;
  s[slot.S_ABSORB] = 0;
}

function stopGenerator(p: Float64Array, s: Float64Array): void {
  s[slot.S_GEN] = slot.GEN_COOLING;
  s[slot.S_GEN_TIMER] = p[slot.P_COOL_DOWN];
  s[slot.S_AC_WAIT] = p[slot.P_AC_WAIT];
}
