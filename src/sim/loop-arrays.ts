import type { LoopArrays } from './advance.ts';
import { OUTAGE_FIELDS, RUN_FIELDS } from './log.ts';
import * as slot from './slots.ts';

/** What belongs to the plant beside its parameters. */
export type Beside = Pick<LoopArrays, 'more' | 'sets' | 'startFails'>;

/** No start fails. */
export const NO_FAILS = new Uint8Array(0);

/** Fresh arrays of a loop whose log has room for so many steps. */
export function makeArrays(
  p: Float64Array,
  s: Float64Array,
  stepsPerChunk: number,
  beside: Beside,
): LoopArrays {
  const x = new Float64Array(slot.X_SIZE);
  x[slot.X_MIN_SOC] = Number.POSITIVE_INFINITY;
  x[slot.X_COLDEST_CELL] = Number.POSITIVE_INFINITY;
  x[slot.X_HOTTEST_CELL] = Number.NEGATIVE_INFINITY;
  x[slot.X_HOTTEST_AIR] = Number.NEGATIVE_INFINITY;
  x[slot.X_LOWEST_TANK] = s[slot.S_TANK];
  const f = new Float64Array(slot.F_SIZE);
  f[slot.F_COLDEST_MORE] = Number.POSITIVE_INFINITY;
  f[slot.F_WARMEST_MORE] = Number.NEGATIVE_INFINITY;
  return {
    p,
    s,
    f,
    t: new Float64Array(slot.T_SIZE),
    x,
    runs: new Float64Array(RUN_FIELDS * 2 * stepsPerChunk),
    outages: new Float64Array(OUTAGE_FIELDS * mostSegments(p[slot.P_STEP_H]) * stepsPerChunk),
    ...beside,
  };
}

/** No step has more segments than this: a dozen switchings, and timers of at least a minute for every minute. */
export function mostSegments(stepH: number): number {
  return 12 + 16 * Math.floor(stepH * 60 + 0.5);
}
