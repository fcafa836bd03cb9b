import { upperMedianOf } from '../middle-values.ts';
/** What each row of a log speaks for: a stretch of time that ends, or begins, with its stamp. */
export interface RowIntervals {
  fromS: Float64Array;
  toS: Float64Array;
  /** 1 where the row's neighbour on that side is so far away that something is missing between them */
  hole: Uint8Array;
  /** commonest distance, rounded to a step of an axis [min] */
  stepMin: number;
  /** rows come at a few fixed distances, not at events */
  isSteady: boolean;
}

const STEPS_MIN = [1, 2, 3, 4, 5, 6, 10, 12, 15, 20, 30, 60];

/** Distances that so many rows in a hundred keep are usual. */
const USUAL_SHARE = 0.08;
/** Rows are steady where this share of the distances is like the one before. */
const STEADY_SHARE = 0.8;
/** A row speaks for at most so many usual distances, where rows are steady and where they come at events. */
const STEADY_REACH = 1.5;
const EVENT_REACH = 3;

/**
 * The stretch that each row speaks for. Over a hole it is the usual distance only: nothing is held across it.
 * @param atS in order of time, each once, two or more
 */
export function rowIntervals(atS: Float64Array, stamp: 'start' | 'end'): RowIntervals {
  const count = atS.length;
  const distance = Float64Array.from({ length: count - 1 }, (_, i) => atS[i + 1] - atS[i]);
  const bins = distance.map(binOf);
  const counts = new Map<number, number>();
  let alike = 0;
  for (let i = 0; i < bins.length; i++) {
    counts.set(bins[i], (counts.get(bins[i]) ?? 0) + 1);
    if (i > 0 && Math.abs(distance[i] - distance[i - 1]) <= 0.2 * distance[i - 1]) alike++;
  }
  const [commonest] = [...counts].sort((a, b) => b[1] - a[1] || a[0] - b[0])[0];
  const usualS = upperMedianOf(distance.filter((_, i) => bins[i] === commonest));
  const isSteady = bins.length < 2 || alike >= STEADY_SHARE * (bins.length - 1);
  const isUsual = (i: number) => (counts.get(bins[i]) ?? 0) >= USUAL_SHARE * bins.length;
  const reach = isSteady ? STEADY_REACH : EVENT_REACH;
  const fromS = new Float64Array(count);
  const toS = new Float64Array(count);
  const hole = new Uint8Array(count);
  for (let row = 0; row < count; row++) {
    const i = stamp === 'end' ? row - 1 : row;
    let local = usualS;
    for (const near of [i - 1, i + 1])
      if (near >= 0 && near < distance.length && (!isSteady || isUsual(near)))
        local = Math.max(local, distance[near]);
    const isEdge = i < 0 || i >= distance.length;
    const isHole = isEdge || distance[i] > reach * local;
    hole[row] = Number(isHole);
    const length = isHole ? usualS : distance[i];
    fromS[row] = stamp === 'end' ? atS[row] - length : atS[row];
    toS[row] = stamp === 'end' ? atS[row] : atS[row] + length;
  }
  return { fromS, toS, hole, stepMin: commonest, isSteady };
}

/** The step of an axis that a distance is nearest to, by ratio [min]. */
function binOf(distanceS: number): number {
  const minutes = distanceS / 60;
  let best = STEPS_MIN[0];
  for (const step of STEPS_MIN)
    if (Math.abs(Math.log(minutes / step)) < Math.abs(Math.log(minutes / best))) best = step;
  return best;
}
