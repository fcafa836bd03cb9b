import { stampWords } from './common-year.ts';
import { epwHead } from './epw-head.ts';
import { epwRows } from './epw-rows.ts';
import { takeSnow } from './epw-snow.ts';
import { recordsToMeans } from './epw-units.ts';
import { Findings } from './findings.ts';
import { layRows } from './lay-rows.ts';
import type { ReadResult } from './series.ts';
import { MAX_GAP_MIN, refused, typicalYearSeries, utcWords, type WeatherOptions } from './typical-year.ts';
import type { WeatherColumn } from './weather-cells.ts';
import { firstLines, textLines } from './weather-text.ts';
import { WHOLE_YEAR, YearsSeen, yearSteps } from './year-rows.ts';

export interface EpwOptions extends WeatherOptions {
  /** 'declared': only the days of DATA PERIODS are asked for, for files that are not years; default 'year' */
  period?: 'year' | 'declared';
  /** snow depth and rain are read too, as fresh snow or as precipitation */
  precipitation?: boolean;
}

/** Cells from 0, and from where on a value means that there is none. */
const COLUMNS = [
  ['ghiWPerM2', 'global horizontal', 13, 9999],
  ['dniWPerM2', 'direct normal', 14, 9999],
  ['dhiWPerM2', 'diffuse horizontal', 15, 9999],
  ['airC', 'dry bulb', 6, 99.9],
  ['windMPerS', 'wind speed', 21, 999],
] as const;

/** For snow on arrays; many files have neither. */
const SNOW_COLUMNS = [
  ['snowDepthCm', 'snow depth', 30, 999, 'the depth before is held on'],
  ['precipMmPerH', 'rain', 33, 999, 'taken as dry'],
] as const;

/** Why these bytes look like an EPW file; null when they do not. */
export function looksLikeEpw(head: Uint8Array): string | null {
  return firstLines(head)[0].startsWith('LOCATION,') ? 'first line begins with LOCATION' : null;
}

/**
 * Reads an EPW weather year.
 * Format: EnergyPlus weather data dictionary as transcribed in public code (second hand), and real files: eight
 * lines of head, then 35 columns a record; radiation is that of the time ending at the stamp, temperature is at the
 * stamp, all in local standard time. Missing: 9999 for irradiance, 99.9 for temperature, 999 for wind. Rows are
 * laid by their stamps, their years are mixed; 29 February is dropped. Several records an hour keep their step.
 * Errors: an issue list, with line and column of each problem; then no series.
 */
export function readEpw(bytes: Uint8Array, file: string, options: EpwOptions = {}): ReadResult {
  const found = new Findings(file);
  const lines = textLines(bytes, found);
  if (found.hasErrors) return refused(found);
  const head = epwHead(lines, found);
  if (head === null || found.hasErrors) return refused(found);
  const { location, perHour } = head;
  const isDeclared = options.period === 'declared';
  const span = isDeclared ? head.period : WHOLE_YEAR;
  const stepMin = 60 / perHour;
  const wholeWords = isDeclared
    ? `${span.days} ${span.days === 1 ? 'day' : 'days'} from ${stampWords(span.firstDay, 0)}`
    : 'a year without 29 February';
  const steps = yearSteps(span, stepMin, 1, { rows: 'records', whole: wholeWords });
  const columns = [...COLUMNS, ...(options.precipitation ? SNOW_COLUMNS : [])].map(
    ([quantity, name, at, none, filled]): WeatherColumn => ({
      quantity,
      name,
      at: [at],
      isMissing: (value) => value === none,
      filled,
    }),
  );
  const years = new YearsSeen();
  const maxGapMin = options.maxGapMin ?? MAX_GAP_MIN;
  const laid = layRows(epwRows(lines, span, perHour, years, found), steps, columns, maxGapMin, found);
  const snow = options.precipitation ? takeSnow(laid, stepMin, found) : '';
  const units = perHour === 1 ? '' : recordsToMeans(laid, steps, perHour, found);
  const ends = `the stamp is the end of the ${perHour === 1 ? 'hour' : `${stepMin} minutes`}${units}`;
  const reading = `${ends}; air and wind are the mean of the stamps at its two ends${snow}`;
  return typicalYearSeries(
    {
      file,
      reader: 'epw',
      chosenBecause: 'first line begins with LOCATION',
      location,
      span,
      stepMin,
      shiftMin: 0,
      stampToStep: -1,
      laid,
      timeReading: `local standard time ${utcWords(location.utcOffsetH)}; ${reading}; ${years.words()}`,
      maxGapMin,
    },
    found,
  );
}
