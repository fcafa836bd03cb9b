/** The log of a run: a row for each generator run and each outage, in arrays that the caller made. */
import * as slot from './slots.ts';

/** start, end, on-load hours, cause, SoC at start and end, kWh, litres, 1 if it ran dry */
export const RUN_FIELDS = 9;
/** start, end, kWh, cause */
export const OUTAGE_FIELDS = 4;

/** Closes the open generator run. */
export function closeRun(
  p: Float64Array,
  s: Float64Array,
  atH: number,
  runs: Float64Array,
  ranDry: boolean,
): void {
  const row = s[slot.S_RUN_COUNT] * RUN_FIELDS;
  runs[row] = s[slot.S_RUN_START];
  runs[row + 1] = atH;
  runs[row + 2] = s[slot.S_ON_LOAD_H];
  runs[row + 3] = s[slot.S_CAUSE];
  runs[row + 4] = s[slot.S_RUN_SOC];
  runs[row + 5] = p[slot.P_CAPACITY] > 0 ? s[slot.S_E] / p[slot.P_CAPACITY] : 0;
  runs[row + 6] = s[slot.S_RUN_KWH];
  runs[row + 7] = s[slot.S_RUN_LITRES];
  runs[row + 8] = Number(ranDry);
  s[slot.S_RUN_COUNT] += 1;
}

/** Lengthens the open outage, or begins one. */
export function goOnOutage(s: Float64Array, t: Float64Array, atH: number, kwh: number, cause: number): void {
  if (s[slot.S_OUTAGE_OPEN] === 0) {
    s[slot.S_OUTAGE_OPEN] = 1;
    s[slot.S_OUTAGE_START] = atH;
    s[slot.S_OUTAGE_KWH] = 0;
    s[slot.S_OUTAGE_CAUSE] = cause;
    t[slot.T_OUTAGES] += 1;
  }
  s[slot.S_OUTAGE_KWH] += kwh;
  s[slot.S_OUTAGE_CAUSE] = Math.min(s[slot.S_OUTAGE_CAUSE], cause);
}

/** Closes the open outage. */
export function closeOutage(s: Float64Array, atH: number, outages: Float64Array): void {
  const row = s[slot.S_OUTAGE_COUNT] * OUTAGE_FIELDS;
  outages[row] = s[slot.S_OUTAGE_START];
  outages[row + 1] = atH;
  outages[row + 2] = s[slot.S_OUTAGE_KWH];
  outages[row + 3] = s[slot.S_OUTAGE_CAUSE];
  s[slot.S_OUTAGE_COUNT] += 1;
  s[slot.S_OUTAGE_OPEN] = 0;
}
