import { SET_FIELDS } from './compile.ts';
import * as slot from './slots.ts';

/** A calendar of thresholds: those of set `index` are put into force at the start of a step. */
export function takeThresholds(p: Float64Array, s: Float64Array, sets: Float64Array, index: number): void {
  const row = index * SET_FIELDS;
  p[slot.P_START_E] = sets[row];
  p[slot.P_STOP_E] = sets[row + 1];
  p[slot.P_URGENT_E] = sets[row + 2];
  p[slot.P_PEAK_START] = sets[row + 3];
  p[slot.P_PEAK_STOP] = sets[row + 4];
  s[slot.S_SET] = index;
}
