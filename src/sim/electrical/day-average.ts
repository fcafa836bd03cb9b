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
 * @param kw    mean output of each step [kW]
 * @param runH  hours that the engine runs in each step [h], at most `stepH`
 * @param leastRunH for each of these, only days with at least so much running [h]
 * @returns one for each of `leastRunH`; null where the engine never runs so long
 * Source: ISO 8528-1, average power over 24 h (from memory).
 */
export function highestDayAverages(
  kw: Float64Array,
  runH: Float64Array,
  stepH: number,
  ratedKw: number,
  leastRunH: readonly number[],
): (DayAverage | null)[] {
  const window = Math.min(kw.length, Math.max(1, Math.floor(DAY_H / stepH + 1e-9)));
  const counted = new Float64Array(kw.length + 1);
  const running = new Float64Array(kw.length + 1);
  for (let i = 0; i < kw.length; i++) {
    counted[i + 1] = counted[i] + Math.max(kw[i] * stepH, LEAST_SHARE * ratedKw * runH[i]);
    running[i + 1] = running[i] + runH[i];
  }
  const highest = leastRunH.map<DayAverage | null>(() => null);
  for (let from = 0; from + window <= kw.length; from++) {
    const hours = running[from + window] - running[from];
    const isStart = runH[from] > 0 && (from === 0 || runH[from - 1] === 0);
    const neverStops = hours >= window * stepH - 1e-9;
    if (!isStart && !neverStops) continue;
    const share = (counted[from + window] - counted[from]) / hours / ratedKw;
    for (let k = 0; k < highest.length; k++)
      if (hours >= leastRunH[k] - 1e-9 && share > (highest[k]?.shareOfRating ?? 0) + 1e-12)
        highest[k] = { shareOfRating: share, runH: hours };
  }
  return highest;
}
