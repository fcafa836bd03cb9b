import { dayOfYear, isLeapDay } from './common-year.ts';
import { Findings, quoted } from './findings.ts';
import { layRows, Occurrences, type StampedRow } from './lay-rows.ts';
import type { ReadResult } from './series.ts';
import { MAX_GAP_MIN, refused, typicalYearSeries, utcWords, type WeatherOptions } from './typical-year.ts';
import type { WeatherColumn } from './weather-cells.ts';
import { placeFrom } from './weather-place.ts';
import { cellsOf, firstLines, textLines } from './weather-text.ts';
import { WHOLE_YEAR, YearsSeen, yearSteps } from './year-rows.ts';

const DATE = 'Date (MM/DD/YYYY)';
const TIME = 'Time (HH:MM)';
const MISSING = -9900;

/** Header cells by what they measure. */
const COLUMNS = [
  ['ghiWPerM2', 'GHI (W/m^2)'],
  ['dniWPerM2', 'DNI (W/m^2)'],
  ['dhiWPerM2', 'DHI (W/m^2)'],
  ['airC', 'Dry-bulb (C)'],
  ['windMPerS', 'Wspd (m/s)'],
] as const;

/** Why these bytes look like a TMY3 file; null when they do not. */
export function looksLikeTmy3(head: Uint8Array): string | null {
  const [, second = ''] = firstLines(head);
  return second.startsWith(`${DATE},`) ? 'second line is a TMY3 header' : null;
}

/**
 * Reads a TMY3 weather year.
 * Format: Wilcox and Marion, Users Manual for TMY3 Data Sets, NREL/TP-581-43156, 2008: a line of station data,
 * a header, 8760 hours stamped 01:00 to 24:00 in local standard time; -9900 is missing. Columns by name, for
 * later files have more of them. Rows are laid by their stamps; 29 February is dropped.
 * Errors: an issue list, with line and column of each problem; then no series.
 */
export function readTmy3(bytes: Uint8Array, file: string, options: WeatherOptions = {}): ReadResult {
  const found = new Findings(file);
  const lines = textLines(bytes, found);
  if (found.hasErrors) return refused(found);
  const station = cellsOf(lines[0]);
  if (station.length < 7) {
    const want = 'code, name, state, UTC offset, latitude, longitude, elevation';
    found.error('station', 'station', quoted(lines[0] ?? ''), want, { line: 1 });
  }
  // a name may hold commas, so the place is counted from the end
  const cell = (fromEnd: number) => {
    const index = station.length - fromEnd;
    return { text: station[index], line: 1, column: index + 1 };
  };
  const location =
    station.length < 7
      ? null
      : placeFrom({ utcOffsetH: cell(4), latDeg: cell(3), lonDeg: cell(2), elevationM: cell(1) }, found);
  const header = cellsOf(lines[1]).map((name) => name.trim());
  for (const name of [DATE, TIME, ...COLUMNS.map(([, name]) => name)]) {
    const times = header.filter((other) => other === name).length;
    const got = times === 0 ? 'no such column' : `${times} such columns`;
    if (times !== 1) found.error('header', name, got, `a column '${name}'`, { line: 2 });
  }
  if (found.hasErrors || location === null) return refused(found);

  const columns = COLUMNS.map(
    ([quantity, name]): WeatherColumn => ({
      quantity,
      name,
      at: [header.indexOf(name)],
      isMissing: (value) => value === MISSING,
    }),
  );
  const years = new YearsSeen();
  const words = { rows: 'hours', whole: 'a year without 29 February' };
  const maxGapMin = options.maxGapMin ?? MAX_GAP_MIN;
  const steps = yearSteps(WHOLE_YEAR, 60, 1, words);
  const laid = layRows(stampedRows(lines, header, years, found), steps, columns, maxGapMin, found);
  const reading = 'the stamp is the end of the hour; air and wind are the mean of the stamps at its two ends';
  return typicalYearSeries(
    {
      file,
      reader: 'tmy3',
      chosenBecause: 'second line is a TMY3 header',
      location,
      span: WHOLE_YEAR,
      stepMin: 60,
      shiftMin: 0,
      stampToStep: -1,
      laid,
      timeReading: `local standard time ${utcWords(location.utcOffsetH)}; ${reading}; ${years.words()}`,
      maxGapMin,
    },
    found,
  );
}

function* stampedRows(
  lines: readonly string[],
  header: readonly string[],
  years: YearsSeen,
  found: Findings,
): Generator<StampedRow> {
  const [dateAt, timeAt] = [header.indexOf(DATE), header.indexOf(TIME)];
  const leap = new Occurrences();
  for (let i = 2; i < lines.length && !found.isFull; i++) {
    if (lines[i].trim() === '') continue;
    const line = i + 1;
    const cells = cellsOf(lines[i]);
    if (cells.length !== header.length) {
      found.error('ragged-row', 'row', `${cells.length} cells`, `${header.length}, as in the header`, {
        line,
      });
      continue;
    }
    const [, month, day, year] =
      /^(\d{1,2})\/(\d{1,2})\/(\d{4})$/.exec(cells[dateAt].trim())?.map(Number) ?? [];
    const [, hour] = /^(\d{1,2}):00$/.exec(cells[timeAt].trim())?.map(Number) ?? [];
    if (!(hour >= 1 && hour <= 24)) {
      found.error('stamp', TIME, quoted(cells[timeAt]), '01:00 to 24:00', { line, column: timeAt + 1 });
      continue;
    }
    if (isLeapDay(month, day)) {
      leap.see(line);
      continue;
    }
    const dayIndex = dayOfYear(month, day);
    if (Number.isNaN(dayIndex)) {
      found.error('stamp', DATE, quoted(cells[dateAt]), 'a day, MM/DD/YYYY', { line, column: dateAt + 1 });
      continue;
    }
    years.see(year);
    yield { line, step: dayIndex * 24 + hour - 1, cells };
  }
  leap.say('leap-day', 'of 29 February', 'a year of 365 days; they are left out', found);
}
