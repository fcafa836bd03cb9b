import type { LoopArrays } from './advance.ts';
import { OUTAGE_FIELDS, RUN_FIELDS } from './log.ts';
import * as slot from './slots.ts';

/** What belongs to the plant beside its parameters. */
export type Beside = Pick<LoopArrays, 'more' | 'sets' | 'startFails'>;

/** Room for the log of runs. */
export type RunLog = Pick<LoopArrays, 'runs' | 'outages'>;

/** Room for a log that grows with what needs it. */
export function makeLog(): RunLog {
  return { runs: new Float64Array(0), outages: new Float64Array(0) };
}

/** No start fails. */
export const NO_FAILS = new Uint8Array(0);

/** Arrays of a loop whose log has room for so many steps, or that of a log which is grown before it is written. */
export function makeArrays(
  p: Float64Array,
  s: Float64Array,
  stepsPerChunk: number,
  { log, ...beside }: Beside & { log?: RunLog },
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
    runs: log?.runs ?? new Float64Array(RUN_FIELDS * 2 * stepsPerChunk),
    outages: log?.outages ?? new Float64Array(OUTAGE_FIELDS * mostSegments(p[slot.P_STEP_H]) * stepsPerChunk),
    ...beside,
  };
}

/** No step has more segments than this: a dozen switchings, and timers of at least a minute for every minute. */
export function mostSegments(stepH: number): number {
  return 12 + 16 * Math.floor(stepH * 60 + 0.5);
}
