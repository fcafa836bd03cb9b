import { layTypicalYear } from '../resample.ts';
import type { TimeAxis } from '../series.ts';
import type { Site } from '../site-schema.ts';
import {
  type MonthlyClimate,
  type SyntheticYears,
  syntheticYears,
  withinHours,
} from '../synthetic-weather.ts';
import type { Weather } from '../weather-files.ts';

const HOUR_S = 3600;
const MONTHS = 12;

/**
 * The monthly means of a weather: daily global irradiation, and daily lowest and highest temperature, by days of
 * mean solar time.
 * @param axis of the weather; it must touch every calendar month
 * @returns null where only the plane of the arrays was measured, or a month is missing
 */
export function climateOf(
  { globalWPerM2, airC }: Pick<Weather, 'globalWPerM2' | 'airC'>,
  { latitudeDeg, longitudeDeg }: Site['site'],
  axis: TimeAxis,
): MonthlyClimate | null {
  if (globalWPerM2 === null) return null;
  const perDay = 1440 / axis.stepMin;
  const [days, globalKwh, lowC, highC] = Array.from({ length: 4 }, () => new Array<number>(MONTHS).fill(0));
  // from the first midnight of mean solar time on
  const offsetS = solarOffsetS(longitudeDeg);
  const intoDayS = (((axis.startS + offsetS) % 86_400) + 86_400) % 86_400;
  const first = Math.ceil((86_400 - intoDayS) / (axis.stepMin * 60)) % perDay;
  for (let from = first; from + perDay <= axis.count; from += perDay) {
    const noonS = axis.startS + offsetS + from * axis.stepMin * 60 + 12 * HOUR_S;
    const month = new Date(noonS * 1000).getUTCMonth();
    const air = airC.subarray(from, from + perDay);
    const sun = globalWPerM2.subarray(from, from + perDay);
    days[month]++;
    globalKwh[month] += (sun.reduce((sum, value) => sum + value, 0) * axis.stepMin) / 60_000;
    lowC[month] += air.reduce((least, value) => Math.min(least, value), Number.POSITIVE_INFINITY);
    highC[month] += air.reduce((most, value) => Math.max(most, value), Number.NEGATIVE_INFINITY);
  }
  if (days.some((count) => count === 0)) return null;
  const mean = (sums: readonly number[]) => sums.map((sum, month) => sum / days[month]);
  return { latDeg: latitudeDeg, globalKwh: mean(globalKwh), lowC: mean(lowC), highC: mean(highC) };
}

/** Mean solar time less UTC, whole minutes [s]. */
function solarOffsetS(lonDeg: number): number {
  return Math.round(lonDeg * 4) * 60;
}

/**
 * A set of years with the climate of a place. The monthly means are met over the set; its years differ.
 * @param count of years, at least 2
 */
export class MadeYears {
  private readonly years: SyntheticYears;
  private readonly fineMin: number;
  private readonly global: Float64Array;

  constructor(
    climate: MonthlyClimate,
    count: number,
    seed: string,
    private readonly axis: TimeAxis,
    private readonly lonDeg: number,
  ) {
    this.years = syntheticYears(climate, count, seed);
    // steps of under five minutes as in weather-files.ts
    this.fineMin = Math.max(5, axis.stepMin);
    this.global =
      this.fineMin < 60 ? withinHours(climate, this.years, this.fineMin, seed) : this.years.globalWPerM2;
  }

  /** One of them on the axis; wind, snow and rain stay those of the weather that is given. @param index from 0 */
  year(index: number, filed: Weather): Weather {
    const lay = (values: Float64Array, stepMin: number) => {
      const perYear = (365 * 1440) / stepMin;
      const one = values.subarray(index * perYear, (index + 1) * perYear);
      return layTypicalYear(one, stepMin, solarOffsetS(this.lonDeg), this.axis);
    };
    return {
      ...filed,
      globalWPerM2: lay(this.global, this.fineMin),
      directWPerM2: null,
      diffuseWPerM2: null,
      plane: null,
      airC: lay(this.years.airC, 60),
    };
  }
}
