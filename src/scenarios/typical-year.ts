import { DAYS, NOMINAL_YEAR } from './common-year.ts';
import { makeSheet } from './data-sheet.ts';
import type { Findings } from './findings.ts';
import { fillGaps } from './gaps.ts';
import type { LaidRows } from './lay-rows.ts';
import type { Gap, ReadResult, Series, TimeAxis } from './series.ts';
import { meansFromStamps } from './stamp-means.ts';
import { checkAgainstSun } from './sun-checks.ts';
import type { WeatherQuantity } from './weather-cells.ts';
import type { WeatherPlace } from './weather-place.ts';
import type { DaySpan } from './year-rows.ts';

/** What a reader of weather files may be told. */
export interface WeatherOptions {
  /** longest hole that is filled [min] */
  maxGapMin?: number;
}

/** Holes of up to a day are filled unless asked otherwise [min]. */
export const MAX_GAP_MIN = 1440;

/** What a reader of typical years has found. */
export interface TypicalYear {
  file: string;
  reader: string;
  chosenBecause: string;
  location: WeatherPlace;
  span: DaySpan;
  stepMin: number;
  /** by how much the steps begin after the full hours of the standard time [min] */
  shiftMin: number;
  /** where step i begins, in steps from its stamp; see `meansFromStamps` */
  stampToStep: number;
  laid: LaidRows;
  /** how the stamps were read */
  timeReading: string;
  maxGapMin: number;
}

export const QUANTITY_NAMES: Record<WeatherQuantity, string> = {
  ghiWPerM2: 'global irradiance',
  dniWPerM2: 'direct irradiance',
  dhiWPerM2: 'diffuse irradiance',
  poaWPerM2: 'irradiance on the plane',
  airC: 'air temperature',
  windMPerS: 'wind speed',
  precipMmPerH: 'precipitation',
  snowCmPerH: 'fresh snow',
  snowDepthCm: 'snow depth',
};

/** No result: problems only. */
export function refused(found: Findings): ReadResult {
  return { series: [], sheet: null, issues: found.issues };
}

/**
 * Series of a typical year of 365 days. Irradiance is the mean over its step; air temperature and wind are read
 * at the stamps, their mean over a step is that of the straight lines between stamps. Holes are filled and counted.
 */
export function typicalYearSeries(year: TypicalYear, found: Findings): ReadResult {
  const { file, location, laid, span, stepMin } = year;
  if (found.hasErrors) return refused(found);
  const firstMidnightS = Date.UTC(NOMINAL_YEAR, 0, 1 + span.firstDay) / 1000;
  const offsetMin = Math.round(location.utcOffsetH * 60);
  const axis: TimeAxis = {
    startS: firstMidnightS + (year.shiftMin - offsetMin) * 60,
    stepMin,
    count: (span.days * 1440) / stepMin,
  };
  const gaps: Gap[] = [];
  const series = [...laid.values].map(([quantity, values]): Series => {
    const filled = fillGaps(values, axis, year.maxGapMin, QUANTITY_NAMES[quantity], file);
    gaps.push(...filled.gaps);
    found.add(filled.issues);
    const atStamp = quantity === 'airC' || quantity === 'windMPerS';
    const means = atStamp ? meansFromStamps(values, year.stampToStep, span.days === DAYS) : values;
    return { name: QUANTITY_NAMES[quantity], quantity, axis, values: means };
  });
  if (!found.hasErrors) checkAgainstSun(laid, axis, location, found);
  const sheet = makeSheet({
    file,
    reader: year.reader,
    chosenBecause: year.chosenBecause,
    timeZone: year.timeReading,
    axis,
    series,
    gaps,
    duplicates: laid.duplicates,
  });
  return { series: found.hasErrors ? [] : series, sheet, issues: found.issues, location };
}

/** 'UTC+5.5'. */
export function utcWords(offsetH: number): string {
  return `UTC${offsetH >= 0 ? '+' : ''}${offsetH}`;
}
