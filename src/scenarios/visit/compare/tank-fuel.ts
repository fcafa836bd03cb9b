/** Readings of an hour, at most, are taken together before and after a run. */
const MOST_READINGS = 12;
/** A level that rises by more than this, over a run or from one day to the next, was filled up meanwhile [L] (own choice). */
export const FILLED_L = 10;
/** Runs that must be known for the rest to be reckoned by their rate. */
const LEAST_RUNS = 5;

/**
 * Fuel burned by the level in a tank: over each run of the engine, the median of what was read before less that after.
 * What the level loses while the engine stands was not burned by it. Runs over which the tank was filled, or without
 * readings on both sides, are taken at the mean rate of the others.
 * @param levelL in the tank at the end of each step, NaN where not known [L]
 * @param on     1 where the engine ran, 0 where it stood, NaN where not known
 * @param known  1 in the steps that count
 * @returns litres in those steps; null where too few runs can be told
 */
export function burnedByTank(
  levelL: Float64Array,
  on: Float64Array,
  known: Uint8Array,
  stepMin: number,
): number | null {
  const most = Math.max(1, Math.min(MOST_READINGS, Math.floor(60 / stepMin)));
  let [toldL, toldSteps, toldRuns, allSteps] = [0, 0, 0, 0];
  for (let i = 0; i < on.length; i++) {
    if (on[i] !== 1) continue;
    let end = i;
    while (end < on.length && on[end] === 1) end++;
    const counted = known.subarray(i, end).reduce((total, one) => total + one, 0);
    allSteps += counted;
    const before = standing(levelL, on, i - 1, -1, most);
    const after = standing(levelL, on, end, 1, most);
    const burnedL = before === null || after === null ? Number.NaN : before - after;
    if (burnedL > -FILLED_L && counted === end - i) {
      toldL += burnedL;
      toldSteps += counted;
      toldRuns++;
    }
    i = end;
  }
  if (allSteps === 0) return 0;
  return toldRuns < LEAST_RUNS ? null : (toldL / toldSteps) * allSteps;
}

/**
 * Median of the readings nearest to a run, going from a step while the engine stands; null without any. They are of the
 * nearer half of the standstill, so that what is lost within it is in neither half.
 */
function standing(
  levelL: Float64Array,
  on: Float64Array,
  from: number,
  by: number,
  most: number,
): number | null {
  let steps = 0;
  while (steps < 2 * most && on[from + by * steps] === 0) steps++;
  const read: number[] = [];
  for (let k = 0; k < Math.ceil(steps / 2); k++) {
    const level = levelL[from + by * k];
    if (!Number.isNaN(level)) read.push(level);
  }
  if (read.length === 0) return null;
  read.sort((a, b) => a - b);
  const half = read.length >> 1;
  return read.length % 2 === 1 ? read[half] : (read[half - 1] + read[half]) / 2;
}
