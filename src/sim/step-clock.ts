/** What runs on from step to step: the meter of charge and its drift, time since full, time since a run, exercises. */
import * as slot from './slots.ts';

/** What the meter of charge shows at the start of a step [kWh]. */
export function readMeter(p: Float64Array, s: Float64Array, f: Float64Array): void {
  f[slot.F_SHOWN_E] = Math.min(p[slot.P_CAPACITY], Math.max(0, s[slot.S_E] + s[slot.S_DRIFT]));
}

/** An exercise run falls due in this step, unless the set was on load a short while ago. */
export function noteExercise(p: Float64Array, s: Float64Array, due: boolean): void {
  if (p[slot.P_EXERCISE_RULE] === 0 || !due) return;
  if (s[slot.S_SINCE_LOAD] >= p[slot.P_EXERCISE_UNLESS] - slot.EPS) s[slot.S_EXERCISE_DUE] = 1;
}

/** At the end of a step. */
export function runClocks(p: Float64Array, s: Float64Array): void {
  const h = p[slot.P_STEP_H];
  if (p[slot.P_FULL_RULE] === 1)
    s[slot.S_SINCE_FULL] = s[slot.S_E] >= p[slot.P_FULL_STOP_E] - slot.EPS ? 0 : s[slot.S_SINCE_FULL] + h;
  if (p[slot.P_DRIFT] !== 0) drift(p, s);
  if (p[slot.P_EXERCISE_RULE] === 0) return;
  const onLoad = s[slot.S_GEN] === slot.GEN_ON_LOAD;
  s[slot.S_SINCE_LOAD] = onLoad ? 0 : s[slot.S_SINCE_LOAD] + h;
  if (onLoad && s[slot.S_ON_LOAD_H] >= p[slot.P_EXERCISE_RUN] - slot.EPS) s[slot.S_EXERCISE_DUE] = 0;
}

/** The meter's error a step later; none when the battery has been full. */
function drift(p: Float64Array, s: Float64Array): void {
  if (s[slot.S_E] >= p[slot.P_DRIFT_RESET_E] - slot.EPS) s[slot.S_DRIFT] = 0;
  else {
    const most = p[slot.P_DRIFT_MOST];
    const next = s[slot.S_DRIFT] + p[slot.P_DRIFT] * p[slot.P_STEP_H];
    s[slot.S_DRIFT] = Math.min(most, Math.max(-most, next));
  }
}
