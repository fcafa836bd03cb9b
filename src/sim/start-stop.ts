/**
 * When the generator starts and stops: the raw conditions, how long each has held, and the decision at the
 * start of a step. RULES.md section 4 is the same in words.
 */
import { CAUSE_CHARGE, CAUSE_CONTINUOUS, CAUSE_PEAK } from './causes.ts';
import { dcDrawKw } from './inverter.ts';
import * as slot from './slots.ts';
import { hasFuel } from './tank.ts';
import { formGrid } from './timers.ts';

const NOT_ASKED = Number.POSITIVE_INFINITY;

/** Low charge, peak and calm, as they are at the start of this step. */
export function readConditions(p: Float64Array, s: Float64Array, f: Float64Array): void {
  f[slot.F_LOW_CHARGE] = Number(p[slot.P_CHARGE_RULE] === 1 && s[slot.S_E] <= p[slot.P_START_E] + slot.EPS);
  if (p[slot.P_PEAK_RULE] === 0) return;
  const limit = f[slot.F_INV_LIMIT] + slot.EPS;
  const start = p[slot.P_PEAK_START] + slot.EPS;
  const stop = p[slot.P_PEAK_STOP] + slot.EPS;
  const linear = p[slot.P_LOSS_LINEAR];
  const quadratic = p[slot.P_LOSS_QUADRATIC];
  let over = 0;
  let under = 1;
  let needDraw = p[slot.P_IDLE] + p[slot.P_STANDBY];
  let wantDraw = needDraw;
  for (let k = 0; k < p[slot.P_PHASES]; k++) {
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
  const inPeakRun = s[slot.S_GEN] === slot.GEN_ON_LOAD && s[slot.S_DUTY] === CAUSE_PEAK;
  s[slot.S_HELD_CALM] = inPeakRun && f[slot.F_CALM] === 1 ? s[slot.S_HELD_CALM] + h : 0;
}

/** The decision of this step; starts and stops are carried out by the timers of the step's segments. */
export function decideGenerator(p: Float64Array, s: Float64Array, f: Float64Array): void {
  const gen = s[slot.S_GEN];
  if (gen === slot.GEN_STOPPED) considerStart(p, s, f);
  else if (gen === slot.GEN_ON_LOAD) considerStop(p, s, f);
  else if (gen === slot.GEN_COOLING) considerReturn(p, s, f);
}

function considerStart(p: Float64Array, s: Float64Array, f: Float64Array): void {
  const wait = shortestWait(p, s, f);
  if (wait === NOT_ASKED || !startIsPossible(p, s)) return;
  const countdown = Math.max(wait, s[slot.S_REST]);
  if (countdown >= p[slot.P_STEP_H] - slot.EPS) return;
  s[slot.S_CAUSE] = firstCauseWithin(wait, p, s, f, 0);
  s[slot.S_GEN] = slot.GEN_STARTING;
  s[slot.S_GEN_TIMER] = countdown + p[slot.P_START_DELAY];
}

function startIsPossible(p: Float64Array, s: Float64Array): boolean {
  const site = s[slot.S_SITE];
  if (site === slot.SITE_DEAD || !hasFuel(p, s)) return false;
  return site === slot.SITE_ON || p[slot.P_BLACK_START] === 1 || s[slot.S_VISITED] === 1;
}

function considerStop(p: Float64Array, s: Float64Array, f: Float64Array): void {
  if (s[slot.S_DUTY] > CAUSE_CHARGE && chargeWait(p, s, f) <= slot.EPS) takeDuty(s, CAUSE_CHARGE);
  const onLoadH = s[slot.S_ON_LOAD_H];
  if (onLoadH >= p[slot.P_MAX_RUN] - slot.EPS) {
    s[slot.S_NO_RETURN] = 1;
    stopGenerator(p, s);
    return;
  }
  if (onLoadH < p[slot.P_MIN_RUN] - slot.EPS || !isSatisfied(p, s, f)) return;
  const other = firstCauseWithin(0, p, s, f, s[slot.S_DUTY]);
  if (other > 0) takeDuty(s, other);
  else stopGenerator(p, s);
}

function considerReturn(p: Float64Array, s: Float64Array, f: Float64Array): void {
  const asking = firstCauseWithin(0, p, s, f, 0);
  if (asking === 0 || s[slot.S_NO_RETURN] === 1 || !hasFuel(p, s)) return;
  formGrid(p, s);
  takeDuty(s, asking);
}

function isSatisfied(p: Float64Array, s: Float64Array, f: Float64Array): boolean {
  const duty = s[slot.S_DUTY];
  if (duty === CAUSE_CHARGE) return chargeIsDone(p, s, f);
  if (duty === CAUSE_PEAK)
    return f[slot.F_CALM] === 1 && s[slot.S_HELD_CALM] >= p[slot.P_PEAK_HOLD] - slot.EPS;
  return false;
}

function chargeIsDone(p: Float64Array, s: Float64Array, f: Float64Array): boolean {
  if (s[slot.S_E] >= p[slot.P_STOP_E] - slot.EPS) return true;
  if (p[slot.P_TAIL_KW] > 0 && s[slot.S_TAIL] >= p[slot.P_TAIL_H] - slot.EPS) return true;
  if (s[slot.S_ABSORB] >= p[slot.P_ABSORB_H] - slot.EPS) return true;
  if (isUrgent(p, s)) return false;
  return s[slot.S_FROZEN] === 1 || (f[slot.F_RESTRICTED] === 1 && p[slot.P_RESTRICTED_ENDS] === 1);
}

/** The shortest wait of the causes that ask in this step [h], or NOT_ASKED. */
function shortestWait(p: Float64Array, s: Float64Array, f: Float64Array): number {
  const wait = Math.min(chargeWait(p, s, f), peakWait(p, s, f), continuousWait(p));
  return wait < p[slot.P_STEP_H] - slot.EPS ? wait : NOT_ASKED;
}

/** The first cause in precedence, but for `not`, that asks with no more than this wait; 0 when none does. */
function firstCauseWithin(
  wait: number,
  p: Float64Array,
  s: Float64Array,
  f: Float64Array,
  not: number,
): number {
  const most = wait + slot.EPS;
  if (not !== CAUSE_CHARGE && chargeWait(p, s, f) <= most) return CAUSE_CHARGE;
  if (not !== CAUSE_PEAK && peakWait(p, s, f) <= most) return CAUSE_PEAK;
  return not !== CAUSE_CONTINUOUS && continuousWait(p) <= most ? CAUSE_CONTINUOUS : 0;
}

function chargeWait(p: Float64Array, s: Float64Array, f: Float64Array): number {
  if (f[slot.F_LOW_CHARGE] === 0) return NOT_ASKED;
  const heldBack = f[slot.F_RESTRICTED] === 1 || s[slot.S_FROZEN] === 1;
  if (heldBack && !isUrgent(p, s)) return NOT_ASKED;
  return Math.max(0, p[slot.P_CHARGE_DELAY] - s[slot.S_HELD_CHARGE]);
}

function peakWait(p: Float64Array, s: Float64Array, f: Float64Array): number {
  if (f[slot.F_PEAK] === 0) return NOT_ASKED;
  return Math.max(0, p[slot.P_PEAK_DELAY] - s[slot.S_HELD_PEAK]);
}

function continuousWait(p: Float64Array): number {
  return p[slot.P_CONTINUOUS] === 1 ? 0 : NOT_ASKED;
}

function isUrgent(p: Float64Array, s: Float64Array): boolean {
  return s[slot.S_E] <= p[slot.P_URGENT_E] + slot.EPS;
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
