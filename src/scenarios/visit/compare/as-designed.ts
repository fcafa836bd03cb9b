import type { Estimate, Estimated, Sums } from '../visit.ts';

/**
 * A value is another than designed where it is so by this many times its interval's half width: twelve intervals of
 * 90 % miss the designed value of an unchanged plant more often than not, so that one that barely does says nothing.
 * 2.5 half widths of 90 % are four standard deviations.
 */
const HALF_WIDTHS = 2.5;

/** ... and by so much that it matters to somebody: shares of the designed value, or what is named (own choice). */
const MATTERS: Record<Estimated, { share: number; least: number }> = {
  loadFactor: { share: 0.03, least: 0 },
  arrayFactor: { share: 0.05, least: 0 },
  usableKwh: { share: 0.05, least: 0 },
  oneWayEfficiency: { share: 0.02, least: 0 },
  standbyKw: { share: 0.25, least: 0.03 },
  startSoc: { share: 0, least: 0.02 },
  stopSoc: { share: 0, least: 0.02 },
  chargeKw: { share: 0.05, least: 0 },
  fuelAtRest: { share: 0.25, least: 0.1 },
  fuelPerKwh: { share: 0.1, least: 0 },
  coolingWPerK: { share: 0.25, least: 0 },
  timeConstantH: { share: 0.25, least: 0 },
};

/**
 * Sums may differ by this share (own choice): one start more or less moves those after it, and so does a shown state
 * of charge that is rounded.
 */
const SUM_SHARE = 0.03;
/** ... or by what so many runs of mean size are: in a short log one run is a large share. */
const RUNS_APART = 2;

/**
 * Whether a log is one of the site as designed: no sum of the log differs from the designed one by more than a run or
 * two or some percent, and no estimate lies clearly beside its designed value.
 */
export function isAsDesigned(designed: Sums, ran: Sums, estimates: readonly Estimate[]): boolean {
  const runs = Math.max(1, designed.starts ?? 0, ran.starts ?? 0);
  const alike = (key: keyof Sums, byRuns: boolean) => {
    const [from, to] = [designed[key], ran[key]];
    if (from === null || to === null) return true;
    const most = Math.max(from, to);
    return Math.abs(to - from) <= Math.max(SUM_SHARE * most, byRuns ? (RUNS_APART * most) / runs : 0);
  };
  const sums = alike('loadKwh', false) && alike('arrayKwh', false);
  const byRuns = (['generatorKwh', 'fuelL', 'runH'] as const).every((key) => alike(key, true));
  return sums && byRuns && !estimates.some(isClearlyOff);
}

/** Beside its designed value by far more than chance, and by so much that it matters. */
export function isClearlyOff(estimate: Estimate): boolean {
  if (estimate.value === null || estimate.designed === null) return false;
  const { key, value, low, high, designed } = estimate;
  const halfWidth = designed < value ? value - low : high - value;
  const { share, least } = MATTERS[key];
  const apart = Math.abs(value - designed);
  return apart > HALF_WIDTHS * halfWidth && apart > Math.max(least, share * Math.abs(designed));
}
