import type { Findings } from '../findings.ts';

/** Rows in order of time, each instant once. */
export interface TimeOrder {
  /** rows by their places in the file */
  order: Int32Array;
  usualS: number;
  read: number;
  duplicates: number;
  resets: number;
}

/** Rows on the far side of so long a hole belong to a clock that was wrong, where they are few [s]. */
const FAR_S = 90 * 86_400;
const MOST_FAR = 0.1;

/**
 * Puts rows in order of time. A row of a time for which there are rows already, before it in the file, is a duplicate
 * and left out; one that is only out of turn is put in its place.
 * @param atS by row of the file; NaN: no time
 * @param lines of the rows
 * @returns null with an error found
 */
export function inTimeOrder(atS: Float64Array, lines: Uint32Array, found: Findings): TimeOrder | null {
  const usualS = usualDistance(atS);
  if (usualS === null) {
    found.error('no-step', 'time', 'no two rows in order of time', 'rows in order of time');
    return null;
  }
  const main: number[] = [];
  const late: number[] = [];
  let last = Number.NEGATIVE_INFINITY;
  let before = Number.NEGATIVE_INFINITY;
  let resets = 0;
  let resetLine = 0;
  let read = 0;
  for (let row = 0; row < atS.length; row++) {
    if (Number.isNaN(atS[row])) continue;
    read++;
    if (atS[row] < before && resets++ === 0) resetLine = lines[row];
    before = atS[row];
    if (atS[row] > last) main.push(row);
    else late.push(row);
    if (atS[row] > last) last = atS[row];
  }
  const { order, twice } = late.length > 0 ? merged(atS, main, late, usualS) : { order: main, twice: [] };
  if (resets > 0)
    found.doubt(
      'order',
      'time',
      `${resets} ${resets === 1 ? 'row' : 'rows'} whose time goes back, the first here`,
      'rows in order of time; they are put in order',
      { line: resetLine },
    );
  if (twice.length > 0)
    found.doubt(
      'duplicates',
      'time',
      `${twice.length} rows for times that were there already, the first here`,
      'one row for each time; the first is kept',
      { line: lines[twice[0]] },
    );
  const near = withoutFar(atS, order, lines, found);
  return near && { order: Int32Array.from(near), usualS, read, duplicates: twice.length, resets };
}

function usualDistance(atS: Float64Array): number | null {
  const steps = new Float64Array(atS.length);
  let count = 0;
  let before = Number.NaN;
  for (const at of atS) {
    if (at > before) steps[count++] = at - before;
    if (!Number.isNaN(at)) before = at;
  }
  if (count === 0) return null;
  return steps.subarray(0, count).sort()[count >> 1];
}

/** Rows that come late, where they fill a hole. */
function merged(atS: Float64Array, main: number[], late: number[], usualS: number) {
  const times = Float64Array.from(main, (row) => atS[row]);
  const twice: number[] = [];
  const fills: number[] = [];
  for (const row of late) {
    const next = firstFrom(times, atS[row]);
    const isThere = times[next] === atS[row];
    const isCovered = next > 0 && next < times.length && times[next] - times[next - 1] < 1.5 * usualS;
    if (isThere || isCovered) twice.push(row);
    else fills.push(row);
  }
  // of the same instant the one that stands first in the file
  const sorted = [...main, ...fills].sort((a, b) => atS[a] - atS[b] || a - b);
  const order = sorted.filter((row, i) => {
    const isFirst = i === 0 || atS[row] > atS[sorted[i - 1]];
    if (!isFirst) twice.push(row);
    return isFirst;
  });
  return { order, twice };
}

/** The place of the first value that is at least so much. */
function firstFrom(sorted: Float64Array, value: number): number {
  let from = 0;
  let to = sorted.length;
  while (from < to) {
    const middle = (from + to) >> 1;
    if (sorted[middle] < value) from = middle + 1;
    else to = middle;
  }
  return from;
}

/** Leaves out few rows far from all others: those of a clock that was lost. */
function withoutFar(
  atS: Float64Array,
  order: number[],
  lines: Uint32Array,
  found: Findings,
): number[] | null {
  const parts: number[][] = [[]];
  for (const [i, row] of order.entries()) {
    if (i > 0 && atS[row] - atS[order[i - 1]] > FAR_S) parts.push([]);
    parts[parts.length - 1].push(row);
  }
  if (parts.length === 1) return order;
  const largest = parts.reduce((most, part) => (part.length > most.length ? part : most));
  const far = order.length - largest.length;
  const line = lines[Math.min(...parts.filter((part) => part !== largest).map((part) => part[0]))];
  const got = `${far} rows more than ${FAR_S / 86_400} days away from the others, the first here`;
  const want = 'rows of one stretch of time; look for a clock that was lost';
  if (far > MOST_FAR * order.length) {
    found.error('far-rows', 'time', got, want, { line });
    return null;
  }
  found.doubt('far-rows', 'time', got, `${want}; they are left out`, { line });
  return largest;
}
