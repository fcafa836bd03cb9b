import { aroundMidnight, middleOf } from './clock-edges.ts';

/** How far a clock is ahead on a day [min], and how much that says. */
export interface OffsetAt {
  day: number;
  minutes: number;
  weight: number;
}

/** What a clock does: ahead by so much at the start, more every day; or an hour in part of the time. */
export interface ClockFit {
  startMin: number;
  perDayMin: number;
  hour: { fromDay: number; toDay: number | null; aheadMin: number } | null;
  /** the straight line itself, however little it says [min, min a day] */
  line: { start: number; slope: number };
}

/** A clock is off where the sun says so by more than this, and by three times what it may be wrong by [min]. */
const OFF_MIN = 12;
/** A drift is told where it makes more than this over the log [min]. */
const DRIFTED_MIN = 25;
const SIGMAS = 3;
/** Where three times that is more, nothing is said [min]. */
const UNSURE_MIN = 30;
/** What the light of a place differs from the reckoned in any case, standard deviation [min]. */
const ALWAYS_MIN = 3;
/** Shorter logs tell no drift [days]. */
const DRIFT_DAYS = 28;
/** An offset as near to a whole hour is one: a wrong zone, not a slow clock [min]. */
const WHOLE_HOUR_MIN = 9;
/** An hour in part of the time explains it where it leaves less than this share of what a straight line leaves. */
const HOUR_SHARE = 0.55;
/** Fewest offsets on either side of a change. */
const FEW_BESIDE = 3;

/**
 * Offset and drift, found so that single days do not count for much; null where there are too few, or
 * they do not agree. */
export function fitClock(offsets: readonly OffsetAt[]): ClockFit | null {
  if (offsets.length < 2) return null;
  // around what most of them say, so that half a day ahead and half a day behind do not fall apart
  const near = roundMiddle(offsets);
  const points = offsets.map((one) => ({ ...one, minutes: near + aroundMidnight(one.minutes - near) }));
  const days = points[points.length - 1].day - points[0].day;
  const line =
    days >= DRIFT_DAYS ? robustLine(points) : { start: middleOf(points.map((p) => p.minutes)), slope: 0 };
  const hour = hourStep(
    points,
    costOf(points, ({ day }) => line.start + line.slope * day),
  );
  if (hour !== null) return { startMin: 0, perDayMin: 0, hour, line };
  const flat = middleOf(points.map((p) => p.minutes));
  const spread = 1.48 * middleOf(points.map((p) => Math.abs(p.minutes - line.start - line.slope * p.day)));
  const independent = Math.max(1, points.length / 2);
  const sigma = Math.hypot(spread / Math.sqrt(independent), ALWAYS_MIN);
  const slopeSigma = (spread * Math.sqrt(12 / independent)) / Math.max(1, days);
  const drifts = Math.abs(line.slope) * days > DRIFTED_MIN && Math.abs(line.slope) > SIGMAS * slopeSigma;
  if (drifts) return { startMin: line.start, perDayMin: line.slope, hour: null, line };
  const isOff = Math.abs(flat) > OFF_MIN && Math.abs(flat) > SIGMAS * sigma;
  if (!isOff && SIGMAS * sigma > UNSURE_MIN) return null;
  if (!isOff) return { startMin: 0, perDayMin: 0, hour: null, line };
  const hours = Math.round(flat / 60) * 60;
  const isHours = hours !== 0 && Math.abs(flat - hours) <= WHOLE_HOUR_MIN;
  return { startMin: isHours ? hours : flat, perDayMin: 0, hour: null, line };
}

/** A value of the circle of the day about which most of the offsets lie [min]. */
function roundMiddle(offsets: readonly OffsetAt[]): number {
  const distances = offsets.map(({ minutes }) => ({
    minutes,
    all: offsets.reduce((sum, one) => sum + one.weight * Math.abs(aroundMidnight(one.minutes - minutes)), 0),
  }));
  return distances.reduce((best, one) => (one.all < best.all ? one : best)).minutes;
}

const ROUNDS = 30;
/** Points further from the line count for less [min]. */
const SOFT_MIN = 8;

/** A straight line by least squares, points far from it weighted down (Huber's weights, over and over). */
function robustLine(points: readonly OffsetAt[]): { start: number; slope: number } {
  let line = { start: middleOf(points.map((p) => p.minutes)), slope: 0 };
  for (let round = 0; round < ROUNDS; round++) {
    let [w, x, y, xx, xy] = [0, 0, 0, 0, 0];
    for (const { day, minutes, weight } of points) {
      const away = Math.abs(minutes - line.start - line.slope * day);
      const k = weight * Math.min(1, SOFT_MIN / Math.max(away, 1e-9));
      w += k;
      x += k * day;
      y += k * minutes;
      xx += k * day * day;
      xy += k * day * minutes;
    }
    const slope = (w * xy - x * y) / (w * xx - x * x);
    line = { start: (y - slope * x) / w, slope };
  }
  return line;
}

function costOf(points: readonly OffsetAt[], expected: (point: OffsetAt) => number): number {
  return points.reduce((sum, point) => sum + point.weight * Math.abs(point.minutes - expected(point)), 0);
}

/** A stretch in which the clock is an hour ahead or behind, where that explains the offsets far better than a drift. */
function hourStep(points: readonly OffsetAt[], lineCost: number): ClockFit['hour'] {
  const days = [...new Set(points.map(({ day }) => day))].sort((a, b) => a - b);
  let best: ClockFit['hour'] = null;
  let least = HOUR_SHARE * lineCost;
  for (let i = FEW_BESIDE; i <= days.length - FEW_BESIDE; i++)
    for (let k = i + FEW_BESIDE; k <= days.length; k++) {
      // it ends within the log, with days beside it, or goes on to its end
      if (k < days.length && days.length - k < FEW_BESIDE) continue;
      for (const aheadMin of [60, -60]) {
        const isIn = ({ day }: OffsetAt) => day >= days[i] && (k === days.length || day < days[k]);
        const base = middleOf(points.map((point) => point.minutes - (isIn(point) ? aheadMin : 0)));
        if (Math.abs(base) > 30) continue;
        const cost = costOf(points, (point) => base + (isIn(point) ? aheadMin : 0));
        if (cost >= least) continue;
        least = cost;
        best = { fromDay: days[i], toDay: k === days.length ? null : days[k], aheadMin };
      }
    }
  return best;
}
