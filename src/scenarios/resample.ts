import type { TimeAxis } from './series.ts';

/**
 * Puts a series of means on another axis. Coarser steps take the mean, finer ones repeat: the integral over any
 * span covered by both axes is kept. Steps outside the source are NaN.
 * @param values mean over each step of `from`
 * @returns mean over each step of `to`
 */
export function resample(values: Float64Array, from: TimeAxis, to: TimeAxis): Float64Array {
  const out = new Float64Array(to.count);
  const stepMin = from.stepMin;
  const shiftMin = (to.startS - from.startS) / 60;
  for (let i = 0; i < to.count; i++) {
    const begin = (shiftMin + i * to.stepMin) / stepMin;
    const end = begin + to.stepMin / stepMin;
    out[i] = meanBetween(values, begin, end);
  }
  return out;
}

/** Mean over a stretch of a series, in steps of it from its start; NaN where it is not covered. */
function meanBetween(values: Float64Array, begin: number, end: number): number {
  const first = Math.floor(begin + 1e-9);
  if (first < 0 || end > values.length + 1e-9) return Number.NaN;
  if (end <= first + 1 + 1e-9) return values[first];
  let sum = 0;
  let covered = 0;
  for (let j = first; j < end - 1e-9; j++) {
    const weight = Math.min(end, j + 1) - Math.max(begin, j);
    sum += values[j] * weight;
    covered += weight;
  }
  return sum / covered;
}

/**
 * Lays typical years of 365 days (8760 hours) over the calendar days of an axis, day by day of the year;
 * 29 February repeats 28 February; one year after the other, from the first again after the last. The years and
 * the axis are both in the site's standard time.
 * @param values  365 days, or a multiple, in equal steps of `stepMin`
 * @param offsetS standard local time less UTC [s]
 */
export function layTypicalYear(
  values: Float64Array,
  stepMin: number,
  offsetS: number,
  to: TimeAxis,
): Float64Array {
  const perDay = 1440 / stepMin;
  // the days of the axis in a row, with one to spare on either side, then an ordinary resampling
  const firstDay = Math.floor((to.startS + offsetS) / 86400) - 1;
  const days = Math.ceil((to.count * to.stepMin) / 1440) + 3;
  const laid = new Float64Array(days * perDay);
  const years = Math.floor(values.length / (365 * perDay));
  const firstYear = yearOf(Math.floor((to.startS + offsetS) / 86400));
  for (let day = 0; day < days; day++) {
    const year = (((yearOf(firstDay + day) - firstYear) % years) + years) % years;
    const source = 365 * year + dayOfCommonYear(firstDay + day);
    laid.set(values.subarray(source * perDay, (source + 1) * perDay), day * perDay);
  }
  const from: TimeAxis = { startS: firstDay * 86400 - offsetS, stepMin, count: laid.length };
  return resample(laid, from, to);
}

/** Calendar year of a day counted from 1970-01-01. */
function yearOf(dayNumber: number): number {
  return new Date(dayNumber * 86_400_000).getUTCFullYear();
}

/** Day of a 365-day year, from 0, of a day counted from 1970-01-01; 29 February is 28 February. */
function dayOfCommonYear(dayNumber: number): number {
  const date = new Date(dayNumber * 86_400_000);
  const year = date.getUTCFullYear();
  const day = dayNumber - Date.UTC(year, 0, 1) / 86_400_000;
  const leap = new Date(Date.UTC(year, 1, 29)).getUTCDate() === 29;
  return leap && day >= 59 ? day - 1 : day;
}
