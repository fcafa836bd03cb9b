/**
 * Rainflow counting: splits a history of states of charge into the cycles that wear a battery.
 * Source: ASTM E1049-85, Standard Practices for Cycle Counting in Fatigue Analysis, section 5.4.4.
 */
import { addCycle, type CycleList, doubled } from './cycle-list.ts';

/**
 * Takes a counted cycle.
 * @param range highest less lowest [unit of the samples], > 0
 * @param mean  middle between highest and lowest
 * @param count 1 for a whole cycle, 0.5 for a half
 */
type OnCycle = (range: number, mean: number, count: number) => void;

/** A count that is under way. */
export interface RainflowCount {
  /** reversals not yet counted, the first the starting point, with ranges that get smaller and smaller */
  reversals: Float64Array;
  size: number;
  /** sample before, a reversal if the next goes the other way */
  last: number;
  /** 1 rising, −1 falling, 0 before the first change */
  direction: number;
}

/** A count that has seen no sample. */
export function startRainflow(): RainflowCount {
  return { reversals: new Float64Array(64), size: 0, last: 0, direction: 0 };
}

/**
 * Reads more samples. A history may be fed in pieces of any length: the cycles are those of the whole.
 * @param samples state of charge [fraction] at successive times, finite; for a run: the initial state of charge
 *                first, then the ends of the steps
 * @param onCycle called for each cycle that closes, in the order of closing
 * Errors: throws at a sample that is not a number.
 */
export function feedRainflow(count: RainflowCount, samples: ArrayLike<number>, onCycle: OnCycle): void {
  const length = samples.length;
  if (length === 0) return;
  let { last, direction } = count;
  if (count.size === 0) {
    last = samples[0];
    addReversal(count, last, onCycle);
  }
  for (let i = 0; i < length; i++) {
    const sample = samples[i];
    if (sample > last) {
      if (direction < 0) addReversal(count, last, onCycle);
      direction = 1;
    } else if (sample < last) {
      if (direction > 0) addReversal(count, last, onCycle);
      direction = -1;
    } else if (sample !== last) throw new Error(`sample ${i} of a rainflow count: ${sample}`);
    last = sample;
  }
  count.last = last;
  count.direction = direction;
}

/** Ends the history: what has not closed counts as half cycles, from the oldest on. The count is empty after it. */
export function endRainflow(count: RainflowCount, onCycle: OnCycle): void {
  if (count.direction !== 0) addReversal(count, count.last, onCycle);
  const { reversals, size } = count;
  for (let i = 1; i < size; i++) emit(reversals[i - 1], reversals[i], 0.5, onCycle);
  count.size = 0;
  count.direction = 0;
}

/**
 * Counts a whole history into a list.
 * @param list    cycles are added at its end
 * @param samples as for `feedRainflow`
 * Errors: as `feedRainflow`.
 */
export function rainflowInto(list: CycleList, samples: ArrayLike<number>): void {
  const count = startRainflow();
  const add = (range: number, mean: number, n: number) => addCycle(list, range, mean, n);
  feedRainflow(count, samples, add);
  endRainflow(count, add);
}

/**
 * The reversals of a history: its first sample, every peak and valley, its last sample; equal samples in a row
 * count as one.
 * @param out     written, at least as long as `samples`
 * @param samples finite
 * @returns how many were written: 0 without samples, 1 where all are equal
 */
export function reversalsInto(out: Float64Array, samples: ArrayLike<number>): number {
  if (samples.length === 0) return 0;
  out[0] = samples[0];
  let last = samples[0];
  let found = 1;
  let direction = 0;
  for (let i = 1; i < samples.length; i++) {
    const sample = samples[i];
    if (sample === last) continue;
    const now = sample > last ? 1 : -1;
    if (direction !== 0 && now !== direction) out[found++] = last;
    direction = now;
    last = sample;
  }
  if (direction !== 0) out[found++] = last;
  return found;
}

/** One more reversal, and the cycles that it closes. The numbers are the steps of section 5.4.4. */
function addReversal(count: RainflowCount, reversal: number, onCycle: OnCycle): void {
  if (count.size === count.reversals.length) count.reversals = doubled(count.reversals);
  const points = count.reversals;
  let size = count.size;
  points[size++] = reversal;
  // (2) fewer than three points: read on
  while (size >= 3) {
    const latest = Math.abs(points[size - 1] - points[size - 2]);
    const before = Math.abs(points[size - 2] - points[size - 3]);
    // (3)
    if (latest < before) break;
    if (size === 3) {
      // (5) the range before contains the starting point: a half cycle, and the start moves on
      emit(points[0], points[1], 0.5, onCycle);
      points[0] = points[1];
      points[1] = points[2];
      size = 2;
    } else {
      // (4) a whole cycle; its peak and valley are dropped
      emit(points[size - 3], points[size - 2], 1, onCycle);
      points[size - 3] = points[size - 1];
      size -= 2;
    }
  }
  count.size = size;
}

function emit(from: number, to: number, n: number, onCycle: OnCycle): void {
  onCycle(Math.abs(to - from), (from + to) / 2, n);
}
