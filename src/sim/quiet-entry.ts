/** Whether the state at the start of a step allows quiet steps at all. */
import { CAUSE_BYPASS, CAUSE_CONTINUOUS, CAUSE_PEAK } from './causes.ts';
import { firstSetIsOut } from './second-set.ts';
import * as slot from './slots.ts';

/** @param windowOpen whether a `continuous` generator may run in this step */
export function canBeQuiet(p: Float64Array, s: Float64Array, f: Float64Array, windowOpen: boolean): boolean {
  const timers =
    s[slot.S_AC_WAIT] + s[slot.S_TRIP] + s[slot.S_TRIP + 1] + s[slot.S_TRIP + 2] + s[slot.S_SHED_TIMER];
  const onLoad = s[slot.S_GEN] === slot.GEN_ON_LOAD;
  const still = onLoad
    ? s[slot.S_DUTY] !== CAUSE_BYPASS && (s[slot.S_DUTY] !== CAUSE_PEAK || p[slot.P_PEAK_CHARGES] === 1)
    : s[slot.S_GEN] === slot.GEN_STOPPED && s[slot.S_SITE] === slot.SITE_ON;
  const fuelStays =
    p[slot.P_TANK] === 0 || s[slot.S_ORDERED] === 1 || s[slot.S_TANK] > p[slot.P_ORDER_AT] + slot.EPS;
  const general =
    p[slot.P_CAPACITY] <= 0 ||
    p[slot.P_KINETIC] === 1 ||
    s[slot.S_OUTAGE_OPEN] === 1 ||
    p[slot.P_CHECK] === 1;
  const window =
    p[slot.P_CONTINUOUS] * p[slot.P_GENERATOR] === 1 &&
    (onLoad ? s[slot.S_DUTY] === CAUSE_CONTINUOUS && !windowOpen : windowOpen);
  return timers === 0 && still && fuelStays && !general && !window && nobodyIsAsked(p, s, f);
}

/** Neither a person, nor the second set, nor an exercise is waited for, and no trip counts towards a lock-out. */
function nobodyIsAsked(p: Float64Array, s: Float64Array, f: Float64Array): boolean {
  if (s[slot.S_CALLED] === 1 || s[slot.S_UNBLED] === 1 || s[slot.S_EXERCISE_DUE] === 1) return false;
  if (
    p[slot.P_SECOND] === 1 &&
    (s[slot.S_SECOND] === 1 || s[slot.S_HELD_SECOND] > 0 || firstSetIsOut(p, s, f))
  )
    return false;
  const inRow = s[slot.S_TRIPS_IN_ROW] > 0 && s[slot.S_SINCE_TRIP] <= p[slot.P_LOCK_WITHIN] + slot.EPS;
  return p[slot.P_LOCK_TRIPS] === 0 || !inRow;
}
