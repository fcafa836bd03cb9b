import { extraterrestrialNormal } from '../sim/sky/extraterrestrial.ts';
import { type Findings, quoted } from './findings.ts';
import type { Quantity } from './series.ts';
import { decimal } from './weather-text.ts';

/** What weather files hold. */
export type WeatherQuantity = Exclude<Quantity, 'loadKw' | 'generationKw'>;

/** Where a quantity stands in a row, and what its file writes for a missing value. */
export interface WeatherColumn {
  quantity: WeatherQuantity;
  /** header cell, or the word for it */
  name: string;
  /** cells from 0; several are added up */
  at: readonly number[];
  isMissing: (value: number) => boolean;
  /** what becomes of missing values; default: filled where the hole is short enough */
  filled?: string;
}

/** What was wrong with the values of a column. */
export interface ColumnTally {
  missing: number;
  /** line of the first that is missing */
  missingLine: number;
  /** values that cannot be */
  impossible: number;
}

export function newTally(): ColumnTally {
  return { missing: 0, missingLine: 0, impossible: 0 };
}

/** As many values that cannot be are listed of each column; the rest is counted. */
const MOST_IMPOSSIBLE = 20;

/** No air temperature beyond this has been measured where people live [°C]. */
const [COLDEST_C, HOTTEST_C] = [-70, 70];
/** No wind lasts an hour above this [m/s]. */
const MOST_WIND_M_PER_S = 100;
/** More has not been measured in an hour [mm], nor lies where people live [cm]. */
const MOST_RAIN_MM = 400;
const MOST_SNOW_CM = 998;
/** Snow in front of a steep plane may add to the sun; more than this is no sunlight [W/m²]. */
const MOST_ON_PLANE_W_PER_M2 = 1500;

/** The range of a quantity on a day of the year, 1 to 366; irradiance is below that of the sun outside the air. */
function rangeOf(quantity: WeatherQuantity, day: number): { least: number; most: number; words: string } {
  if (quantity === 'airC')
    return { least: COLDEST_C, most: HOTTEST_C, words: `${COLDEST_C} to ${HOTTEST_C} °C` };
  if (quantity === 'windMPerS')
    return { least: 0, most: MOST_WIND_M_PER_S, words: `0 to ${MOST_WIND_M_PER_S} m/s` };
  if (quantity === 'precipMmPerH') return { least: 0, most: MOST_RAIN_MM, words: `0 to ${MOST_RAIN_MM} mm` };
  if (quantity === 'snowDepthCm' || quantity === 'snowCmPerH')
    return { least: 0, most: MOST_SNOW_CM, words: `0 to ${MOST_SNOW_CM} cm` };
  if (quantity === 'poaWPerM2')
    return { least: 0, most: MOST_ON_PLANE_W_PER_M2, words: `0 to ${MOST_ON_PLANE_W_PER_M2} W/m²` };
  const most = extraterrestrialNormal(day);
  return { least: 0, most, words: `0 to ${Math.floor(most)} W/m², the sun outside the air` };
}

/**
 * The value of a column in a row; NaN where it is missing or cannot be.
 * Errors: what is no number is an error; a value that cannot be is a doubt and counts as missing.
 * @param day day of the year, 1 to 366
 */
export function cellValue(
  cells: readonly string[],
  column: WeatherColumn,
  day: number,
  line: number,
  tally: ColumnTally,
  found: Findings,
): number {
  const range = rangeOf(column.quantity, day);
  let sum = 0;
  for (const at of column.at) {
    const value = decimal(cells[at]);
    const isEmpty = (cells[at] ?? '').trim() === '';
    if (isEmpty || column.isMissing(value)) {
      if (tally.missing++ === 0) tally.missingLine = line;
      return Number.NaN;
    }
    const place = { line, column: at + 1 };
    if (Number.isNaN(value)) {
      const want = 'a number, or the sign of the format for a missing value';
      found.error('not-a-number', column.name, quoted(cells[at]), want, place);
      return Number.NaN;
    }
    sum += value;
    // of cells that are added up, each must be possible, and so must their sum
    if (value < range.least || sum > range.most) {
      const want = `${range.words}; taken as missing`;
      if (++tally.impossible <= MOST_IMPOSSIBLE)
        found.doubt('impossible', column.name, quoted(cells[at].trim()), want, place);
      return Number.NaN;
    }
  }
  return sum;
}

/** What there is to say of the columns once all rows are read. */
export function sayTallies(
  columns: readonly WeatherColumn[],
  tallies: readonly ColumnTally[],
  found: Findings,
) {
  for (const [i, { name, at, filled }] of columns.entries()) {
    const { missing, missingLine, impossible } = tallies[i];
    const more = impossible - MOST_IMPOSSIBLE;
    if (more > 0)
      found.doubt('impossible', name, `${more} more values that cannot be`, 'none; all taken as missing');
    if (missing === 0) continue;
    const got = `${missing} missing ${missing === 1 ? 'value' : 'values'}, the first here`;
    const want = `values; ${filled ?? 'filled where the hole is short enough'}`;
    found.doubt('missing', name, got, want, { line: missingLine, column: at[0] + 1 });
  }
}
