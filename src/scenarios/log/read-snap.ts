import type { RowIntervals } from './read-intervals.ts';

/** Rows of this share more or less than a step belong to one step. */
const LENGTH_SLACK = 0.02;

/**
 * Rows as long as a step of the axis, moved onto whole steps, by half a step at most: a step is then what one row
 * says, so that its energies, levels and running times belong together. Spread over two steps each they would not: a
 * level would be up to a step older than the energy beside it. Where a drifting clock has gained or lost a whole step,
 * a row speaks for two steps or for none.
 * @param offsetS local time less UTC [s]: steps are those of the local clock
 */
export function onWholeSteps(intervals: RowIntervals, offsetS: number): RowIntervals {
  const stepS = intervals.stepMin * 60;
  if (!intervals.isSteady) return intervals;
  const whole = (atS: number) => Math.round((atS + offsetS) / stepS) * stepS - offsetS;
  const fits = intervals.fromS.map((from, row) =>
    Number(Math.abs((intervals.toS[row] - from) / stepS - 1) <= LENGTH_SLACK),
  );
  const move = (ends: Float64Array) => ends.map((atS, row) => (fits[row] === 1 ? whole(atS) : atS));
  return { ...intervals, fromS: move(intervals.fromS), toS: move(intervals.toS) };
}
