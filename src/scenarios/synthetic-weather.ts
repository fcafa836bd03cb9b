import seedrandom from 'seedrandom';
import { clearSkyGlobal } from '../sim/sky/clear-sky.ts';
import {
  clearnessGamma,
  clearnessQuantile,
  DAY_TO_DAY,
  greatestClearness,
  HOUR_TO_HOUR,
  hourlySpread,
  hourOfDayRatio,
  LEAST_CLEARNESS,
} from '../sim/sky/daily-clearness.ts';
import { dailySun } from '../sim/sky/extraterrestrial.ts';
import { normal } from './normal-draw.ts';

/** What is known of a place's climate. */
export interface MonthlyClimate {
  latDeg: number;
  /** mean daily global irradiation of each month [kWh/m² a day] */
  globalKwh: readonly number[];
  /** mean daily lowest and highest temperature of each month [°C] */
  lowC: readonly number[];
  highC: readonly number[];
}

/** Years of hours, in mean solar time of the place; 365 days each. */
export interface SyntheticYears {
  /** mean global irradiance of each hour [W/m²]; years·8760 values */
  globalWPerM2: Float64Array;
  /** mean air temperature of each hour [°C] */
  airC: Float64Array;
  /** daily clearness index; years·365 values */
  clearness: Float64Array;
}

const DAYS_OF_MONTHS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
const MONTH_OF_DAY = DAYS_OF_MONTHS.flatMap((days, month) => new Array<number>(days).fill(month));
const HOURS = 24;

/**
 * Years of weather from monthly means, the same for the same seed.
 * Daily clearness follows the distribution of Bendt et al. (1981) with the day-to-day correlation of Graham et
 * al. (1988); the ranks of all days of a month over all the years take the distribution's quantiles in turn, so
 * that the monthly means are met over the set of years while single years differ. Hours follow
 * Collares-Pereira and Rabl (1979) with the spread and correlation of Graham and Hollands (1990), below the clear
 * sky of Haurwitz (1945), each day's sum kept. Temperature: a rule of our own: the daily range widens with the
 * day's clearness, and a drift of some kelvins lasts for days; its monthly means of highest and lowest are met.
 * @param years 1 to 200
 */
export function syntheticYears(climate: MonthlyClimate, years: number, seed: string): SyntheticYears {
  const draw = seedrandom(seed);
  const clearness = dailyClearness(climate, years, draw);
  const globalWPerM2 = new Float64Array(years * 8760);
  for (let day = 0; day < years * 365; day++)
    fillDay(
      globalWPerM2.subarray(day * HOURS, (day + 1) * HOURS),
      climate.latDeg,
      day % 365,
      clearness,
      day,
      draw,
    );
  return { globalWPerM2, airC: temperatures(climate, years, clearness, draw), clearness };
}

function dailyClearness(climate: MonthlyClimate, years: number, draw: () => number): Float64Array {
  const count = years * 365;
  const chain = new Float64Array(count);
  const own = Math.sqrt(1 - DAY_TO_DAY ** 2);
  for (let day = 0; day < count; day++)
    chain[day] = (day > 0 ? DAY_TO_DAY * chain[day - 1] : 0) + (day > 0 ? own : 1) * normal(draw);
  const clearness = new Float64Array(count);
  for (let month = 0; month < 12; month++) {
    const days: number[] = [];
    for (let day = 0; day < count; day++) if (MONTH_OF_DAY[day % 365] === month) days.push(day);
    const spread = monthSpread(climate, month);
    const ranked = days.sort((a, b) => chain[a] - chain[b]);
    for (const [rank, day] of ranked.entries())
      clearness[day] = clearnessQuantile(
        (rank + 0.5) / ranked.length,
        spread.gamma,
        LEAST_CLEARNESS,
        spread.greatest,
      );
  }
  return clearness;
}

/** Greatest clearness of a month's days and the distribution's parameter for its mean. */
export function monthSpread(
  climate: MonthlyClimate,
  month: number,
): { greatest: number; gamma: number; mean: number } {
  const first = DAYS_OF_MONTHS.slice(0, month).reduce((sum, days) => sum + days, 0);
  let outside = 0;
  let clear = Number.POSITIVE_INFINITY;
  for (let day = first; day < first + DAYS_OF_MONTHS[month]; day++) {
    const horizontal = dailySun(climate.latDeg, day + 1).horizontalMj / 3.6;
    outside += horizontal / DAYS_OF_MONTHS[month];
    clear = Math.min(clear, clearDayKwh(climate.latDeg, day) / horizontal);
  }
  const mean = climate.globalKwh[month] / outside;
  const greatest = Math.min(greatestClearness(mean), 0.98 * clear);
  return { greatest, gamma: clearnessGamma(mean, LEAST_CLEARNESS, greatest), mean };
}

/** Clear-sky irradiance at a moment of a day [W/m²]; `hour` with its fraction, in solar time. */
export function clearAt(latDeg: number, day: number, hour: number): number {
  const { declination } = dailySun(latDeg, day + 1);
  const lat = (latDeg * Math.PI) / 180;
  const angle = ((hour - 12) * Math.PI) / 12;
  return clearSkyGlobal(
    Math.sin(lat) * Math.sin(declination) + Math.cos(lat) * Math.cos(declination) * Math.cos(angle),
  );
}

/** Mean clear-sky irradiance of an hour of a day, from every five minutes of it [W/m²]. */
export function clearHour(latDeg: number, day: number, hour: number): number {
  let sum = 0;
  for (let j = 0; j < 12; j++) sum += clearAt(latDeg, day, hour + (j + 0.5) / 12);
  return sum / 12;
}

function clearDayKwh(latDeg: number, day: number): number {
  let sum = 0;
  for (let hour = 0; hour < HOURS; hour++) sum += clearHour(latDeg, day, hour) / 1000;
  return sum;
}

/** Hours of one day: the mean shape, roughened, below the clear sky, with the day's sum kept. */
function fillDay(
  hours: Float64Array,
  latDeg: number,
  day: number,
  clearness: Float64Array,
  index: number,
  draw: () => number,
): void {
  const { horizontalMj, sunsetAngle } = dailySun(latDeg, day + 1);
  const sumW = (clearness[index] * horizontalMj * 1000) / 3.6;
  const spread = hourlySpread(clearness[index]) / Math.max(clearness[index], 0.05);
  const limit = new Float64Array(HOURS);
  let drift = 0;
  for (let hour = 0; hour < HOURS; hour++) {
    drift = HOUR_TO_HOUR * drift + Math.sqrt(1 - HOUR_TO_HOUR ** 2) * normal(draw);
    limit[hour] = clearHour(latDeg, day, hour);
    const ratio = hourOfDayRatio(((hour + 0.5 - 12) * Math.PI) / 12, sunsetAngle);
    hours[hour] = sumW * ratio * Math.max(LEAST_SHARE, 1 + spread * drift);
  }
  keepSum(hours, limit, sumW);
}

/**
 * Cuts values to their limits and spreads what is cut off over the others in proportion, until their sum is right;
 * where all are at their limit the sum stays short.
 */
function keepSum(values: Float64Array, limit: Float64Array, wanted: number): void {
  for (let pass = 0; pass < 50; pass++) {
    let sum = 0;
    let free = 0;
    for (let i = 0; i < values.length; i++) {
      values[i] = Math.min(values[i], limit[i]);
      sum += values[i];
      if (values[i] < limit[i]) free += values[i];
    }
    const missing = wanted - sum;
    if (Math.abs(missing) < 1e-9 * Math.max(1, wanted) || (missing > 0 && free <= 0)) return;
    for (let i = 0; i < values.length; i++) {
      if (missing < 0) values[i] *= wanted / sum;
      else if (values[i] < limit[i]) values[i] *= 1 + missing / free;
    }
  }
}

/** No hour or step falls below this share of its expected value: even a thick cloud lets light through. */
const LEAST_SHARE = 0.05;

/** Correlation from five minutes to the next of what clouds let through; a rule of our own. */
const FIVE_MINUTES = 0.8;

/**
 * Irradiance of shorter steps within the hours of synthetic years: each hour's mean is kept, no step is above the
 * clear sky of its moment, and half-clear hours flicker most. The hours' spread of Graham and Hollands (1990) is
 * used for the steps too; how it lasts is a rule of our own.
 * @param stepMin divides 60
 */
export function withinHours(
  climate: MonthlyClimate,
  years: SyntheticYears,
  stepMin: number,
  seed: string,
): Float64Array {
  const per = 60 / stepMin;
  const draw = seedrandom(`${seed} within hours`);
  const lasting = FIVE_MINUTES ** (stepMin / 5);
  const out = new Float64Array(years.globalWPerM2.length * per);
  const limit = new Float64Array(per);
  let drift = 0;
  for (let hour = 0; hour < years.globalWPerM2.length; hour++) {
    const mean = years.globalWPerM2[hour];
    if (mean <= 0) continue;
    const day = Math.floor(hour / HOURS);
    const spread = hourlySpread(years.clearness[day]) / Math.max(years.clearness[day], 0.05);
    const steps = out.subarray(hour * per, (hour + 1) * per);
    for (let j = 0; j < per; j++) {
      drift = lasting * drift + Math.sqrt(1 - lasting ** 2) * normal(draw);
      limit[j] = clearAt(climate.latDeg, day % 365, (hour % HOURS) + (j + 0.5) / per);
      steps[j] = mean * Math.max(LEAST_SHARE, 1 + spread * drift);
    }
    keepSum(steps, limit, mean * per);
  }
  return out;
}

const DRIFT_K = 3;
const DRIFT_LASTS = 0.75;
const WARMEST_HOUR = 14.5;

function temperatures(
  climate: MonthlyClimate,
  years: number,
  clearness: Float64Array,
  draw: () => number,
): Float64Array {
  const count = years * 365;
  const low = new Float64Array(count);
  const high = new Float64Array(count);
  let drift = 0;
  for (let day = 0; day < count; day++) {
    const month = MONTH_OF_DAY[day % 365];
    drift = DRIFT_LASTS * drift + Math.sqrt(1 - DRIFT_LASTS ** 2) * DRIFT_K * normal(draw);
    const mean = (climate.lowC[month] + climate.highC[month]) / 2 + drift;
    const range = (climate.highC[month] - climate.lowC[month]) * (0.35 + 1.3 * clearness[day]);
    low[day] = mean - range / 2;
    high[day] = mean + range / 2;
  }
  meetMonthlyMeans(low, climate.lowC);
  meetMonthlyMeans(high, climate.highC);
  const airC = new Float64Array(count * HOURS);
  for (let day = 0; day < count; day++)
    for (let hour = 0; hour < HOURS; hour++) {
      const swing = Math.cos(((hour + 0.5 - WARMEST_HOUR) * Math.PI) / 12);
      // the night before leads to the next day's low, so that midnight has no step
      const nextLow = low[Math.min(count - 1, day + 1)];
      const floor = hour + 0.5 > WARMEST_HOUR ? nextLow : low[day];
      airC[day * HOURS + hour] = (high[day] + floor) / 2 + ((high[day] - floor) / 2) * swing;
    }
  return airC;
}

/** Shifts the days of each month so that their mean over all the years is the stated one. */
function meetMonthlyMeans(values: Float64Array, means: readonly number[]): void {
  for (let month = 0; month < 12; month++) {
    let sum = 0;
    let days = 0;
    for (let day = 0; day < values.length; day++)
      if (MONTH_OF_DAY[day % 365] === month) {
        sum += values[day];
        days++;
      }
    for (let day = 0; day < values.length; day++)
      if (MONTH_OF_DAY[day % 365] === month) values[day] += means[month] - sum / days;
  }
}

/** The longest run of days with a clearness of at most `below`. */
export function longestDullSpell(clearness: Float64Array, below: number): { days: number; fromDay: number } {
  let longest = { days: 0, fromDay: 0 };
  let from = 0;
  for (let day = 0; day <= clearness.length; day++) {
    if (day < clearness.length && clearness[day] <= below) continue;
    if (day - from > longest.days) longest = { days: day - from, fromDay: from };
    from = day + 1;
  }
  return longest;
}
