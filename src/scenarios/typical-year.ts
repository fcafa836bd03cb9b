import { makeSheet } from './data-sheet.ts';
import { fillGaps } from './gaps.ts';
import type { Issue } from './issue.ts';
import type { Gap, Quantity, ReadResult, Series, TimeAxis } from './series.ts';

/** What a weather-year reader has found: 8760 hours of each quantity, stamped at the end of the hour. */
export interface TypicalYear {
  file: string;
  reader: string;
  chosenBecause: string;
  location: { latDeg: number; lonDeg: number; utcOffsetH: number; elevationM: number };
  hours: Record<'ghiWPerM2' | 'dniWPerM2' | 'dhiWPerM2' | 'airC' | 'windMPerS', Float64Array>;
  issues: Issue[];
}

/** The hours of a typical year are laid on this year, which is not a leap year. */
const NOMINAL_YEAR = 2023;
const HOURS = 8760;
const MAX_GAP_MIN = 24 * 60;
const NAMES = {
  ghiWPerM2: 'global irradiance',
  dniWPerM2: 'direct irradiance',
  dhiWPerM2: 'diffuse irradiance',
  airC: 'air temperature',
  windMPerS: 'wind speed',
} as const;

/**
 * Series of a typical year: irradiance is the mean over the hour that ends at the stamp; temperature and wind are
 * read at the stamps, and their mean over the hour is that of its two ends. Values out of range are missing
 * values; gaps of up to a day are filled and counted.
 */
export function typicalYearSeries(year: TypicalYear): ReadResult {
  const { file, issues, location } = year;
  if (issues.some((issue) => issue.severity === 'error')) return { series: [], sheet: null, issues };
  const startS = Date.UTC(NOMINAL_YEAR, 0, 1) / 1000 - location.utcOffsetH * 3600;
  const axis: TimeAxis = { startS, stepMin: 60, count: HOURS };
  const gaps: Gap[] = [];
  const series = Object.entries(year.hours).map(([quantity, values]): Series => {
    const found = fillGaps(values, axis, MAX_GAP_MIN, quantity, file);
    gaps.push(...found.gaps);
    issues.push(...found.issues);
    const atStamp = quantity === 'airC' || quantity === 'windMPerS';
    return {
      name: NAMES[quantity as keyof typeof NAMES],
      quantity: quantity as Quantity,
      axis,
      values: atStamp ? meansBetweenStamps(values) : values,
    };
  });
  const failed = issues.some((issue) => issue.severity === 'error');
  const sheet = makeSheet({
    file,
    reader: year.reader,
    chosenBecause: year.chosenBecause,
    timeZone: `local standard time UTC${location.utcOffsetH >= 0 ? '+' : ''}${location.utcOffsetH}, hour ending at the stamp, laid on any calendar year`,
    axis,
    series,
    gaps,
  });
  return { series: failed ? [] : series, sheet, issues, location };
}

function meansBetweenStamps(stamps: Float64Array): Float64Array {
  return stamps.map((value, i) => (value + stamps[i === 0 ? stamps.length - 1 : i - 1]) / 2);
}

/** A value, or NaN outside what the quantity can be. */
export function within(value: number, least: number, most: number): number {
  return value >= least && value <= most ? value : Number.NaN;
}

/** A problem with the shape of a weather file. */
export function weatherIssue(file: string, line: number, path: string, got: string, want: string): Issue {
  return { severity: 'error', code: 'weather-file', path, got, want, at: { file, line } };
}

/** Lines of a file without their ends. */
export function textLines(bytes: Uint8Array): string[] {
  return new TextDecoder('utf-8').decode(bytes).replace(/\r\n?/g, '\n').split('\n');
}

export const TYPICAL_HOURS = HOURS;
