/** Load below this share of the rating counts as this share: ISO 8528-1 (from memory). */
const LEAST_SHARE = 0.3;
const DAY_H = 24;

/** An average over a day, and how long the engine ran in it. */
export interface DayAverage {
  /** of the rating */
  shareOfRating: number;
  runH: number;
}

/**
 * The highest average load of a generating set over 24 h: time at standstill does not count, and load below 30 % of
 * the rating counts as 30 %. Days that begin with a start of the engine are looked at, and days in which it never
 * stops; a day that cut a run short would show the end of that run alone.
 * @param kwh   energy of each step [kWh]
 * @param runH  hours that the engine runs in each step [h], at most `stepH`
 * @param leastRunH only days with at least this much running [h]
 * @returns null where the engine never runs so long
 * Source: ISO 8528-1, average power over 24 h (from memory).
 */
export function highestDayAverage(
  kwh: Float64Array,
  runH: Float64Array,
  stepH: number,
  ratedKw: number,
  leastRunH = 0,
): DayAverage | null {
  const window = Math.min(kwh.length, Math.max(1, Math.floor(DAY_H / stepH + 1e-9)));
  const counted = new Float64Array(kwh.length + 1);
  const running = new Float64Array(kwh.length + 1);
  for (let i = 0; i < kwh.length; i++) {
    counted[i + 1] = counted[i] + Math.max(kwh[i], LEAST_SHARE * ratedKw * runH[i]);
    running[i + 1] = running[i] + runH[i];
  }
  let highest: DayAverage | null = null;
  for (let from = 0; from + window <= kwh.length; from++) {
    const hours = running[from + window] - running[from];
    const isStart = runH[from] > 0 && (from === 0 || runH[from - 1] === 0);
    const neverStops = hours >= window * stepH - 1e-9;
    if (!(isStart || neverStops) || hours < leastRunH - 1e-9) continue;
    const share = (counted[from + window] - counted[from]) / hours / ratedKw;
    if (highest === null || share > highest.shareOfRating + 1e-12)
      highest = { shareOfRating: share, runH: hours };
  }
  return highest;
}
