import { DAYS, dayOfYear } from './common-year.ts';
import { type Findings, quoted } from './findings.ts';
import { placeFrom, type WeatherPlace } from './weather-place.ts';
import { cellsOf, whole } from './weather-text.ts';
import type { DaySpan } from './year-rows.ts';

export const HEAD_LINES = 8;

/** The lines at the head of an EPW file, by how they begin. */
const BEGINNINGS = [
  'LOCATION',
  'DESIGN CONDITIONS',
  'TYPICAL/EXTREME PERIODS',
  'GROUND TEMPERATURES',
  // a real file spells it without the last letter
  'HOLIDAYS/DAYLIGHT SAVING',
  'COMMENTS 1',
  'COMMENTS 2',
  'DATA PERIODS',
];

/** What the head says. */
export interface EpwHead {
  location: WeatherPlace;
  perHour: number;
  /** the days that the file says it covers */
  period: DaySpan;
}

/** Reads the eight lines at the head; null, with errors found, where they are not those of an EPW file. */
export function epwHead(lines: readonly string[], found: Findings): EpwHead | null {
  for (const [i, beginning] of BEGINNINGS.entries())
    if (!(lines[i] ?? '').slice(0, 40).toUpperCase().startsWith(beginning))
      found.error('head', beginning, quoted(lines[i] ?? ''), `a line that begins with ${beginning}`, {
        line: i + 1,
      });
  const place = cellsOf(lines[0]);
  const isPlace = place.length >= 10;
  if (place[0] === 'LOCATION' && !isPlace) {
    const want = 'LOCATION, five names and numbers, latitude, longitude, UTC offset, elevation';
    found.error('head', 'LOCATION', quoted(lines[0] ?? ''), want, { line: 1 });
  }
  if (found.hasErrors) return null;
  const cell = (index: number) => ({ text: place[index], line: 1, column: index + 1 });
  const location = placeFrom(
    { latDeg: cell(6), lonDeg: cell(7), utcOffsetH: cell(8), elevationM: cell(9) },
    found,
  );
  const periods = dataPeriods(lines[HEAD_LINES - 1], found);
  return periods && { location, ...periods };
}

/** `DATA PERIODS, how many, records an hour, name, weekday of the first day, first day, last day`. */
function dataPeriods(text: string, found: Findings): { perHour: number; period: DaySpan } | null {
  const cells = cellsOf(text);
  const at = (index: number) => ({ line: HEAD_LINES, column: index + 1 });
  const perHour = whole(cells[2]);
  if (whole(cells[1]) !== 1) {
    found.error('head', 'DATA PERIODS', quoted(cells[1] ?? ''), 'one data period', at(1));
    return null;
  }
  if (!(perHour >= 1 && 60 % perHour === 0))
    found.error('head', 'DATA PERIODS', quoted(cells[2] ?? ''), 'records an hour that divide 60', at(2));
  const [first, last] = [monthDay(cells[5]), monthDay(cells[6])];
  if (!(first <= last)) {
    const got = `${quoted(cells[5] ?? '')} to ${quoted(cells[6] ?? '')}`;
    found.error('head', 'DATA PERIODS', got, 'first and last day within a year, month/day', at(5));
  }
  return { perHour, period: { firstDay: first, days: Math.min(DAYS, last - first + 1) } };
}

/** Day of the year of '12/31', also with a year after it; NaN for anything else. */
function monthDay(text: string | undefined): number {
  const [, month, day] =
    /^\s*(\d{1,2})\s*\/\s*(\d{1,2})\s*(?:\/\s*\d{4}\s*)?$/.exec(text ?? '')?.map(Number) ?? [];
  return dayOfYear(month, day);
}
