import { dayOfYear, isLeapDay } from './common-year.ts';
import { HEAD_LINES } from './epw-head.ts';
import { type Findings, quoted } from './findings.ts';
import { Occurrences, type StampedRow } from './lay-rows.ts';
import { cellsOf, whole } from './weather-text.ts';
import type { DaySpan, YearsSeen } from './year-rows.ts';

/** Rows have 35 cells; older files leave out the last three, and some end in a comma. */
const [FEWEST_CELLS, MOST_CELLS] = [32, 36];

/**
 * The records of an EPW file with their steps. Month, day and hour (1 to 24, ending at the stamp) place a record;
 * with one an hour the minute is 0 or 60 and says nothing, with more it is the end of the record in its hour.
 */
export function* epwRows(
  lines: readonly string[],
  span: DaySpan,
  perHour: number,
  years: YearsSeen,
  found: Findings,
): Generator<StampedRow> {
  const leap = new Occurrences();
  const width = cellsOf(lines.slice(HEAD_LINES).find((text) => text.trim() !== '')).length;
  for (let i = HEAD_LINES; i < lines.length && !found.isFull; i++) {
    if (lines[i].trim() === '') continue;
    const line = i + 1;
    const cells = cellsOf(lines[i]);
    if (cells.length !== width || width < FEWEST_CELLS || width > MOST_CELLS) {
      const want =
        width >= FEWEST_CELLS && width <= MOST_CELLS ? `${width}, as in the first row` : '35 cells';
      found.error('ragged-row', 'row', `${cells.length} cells`, want, { line });
      continue;
    }
    const [year, month, day, hour, minute] = cells.slice(0, 5).map(whole);
    if (isLeapDay(month, day)) {
      leap.see(line);
      continue;
    }
    const dayIndex = dayOfYear(month, day) - span.firstDay;
    const part = partOfHour(minute, perHour);
    if (!(year > 0)) found.error('stamp', 'year', quoted(cells[0]), 'a year', { line, column: 1 });
    else if (Number.isNaN(dayIndex))
      found.error('stamp', 'month and day', `${cells[1]}/${cells[2]}`.slice(0, 60), 'a day of the year', {
        line,
        column: 2,
      });
    else if (!(hour >= 1 && hour <= 24))
      found.error('stamp', 'hour', quoted(cells[3]), '1 to 24', { line, column: 4 });
    else if (Number.isNaN(part)) {
      const step = 60 / perHour;
      const want = perHour === 1 ? '0 to 60' : `a multiple of ${step}, ${step} to 60`;
      found.error('stamp', 'minute', quoted(cells[4]), want, { line, column: 5 });
    } else if (dayIndex < 0 || dayIndex >= span.days)
      found.error('stamp', 'month and day', `${month}/${day}`, 'a day of the data period', {
        line,
        column: 2,
      });
    else {
      years.see(year);
      yield { line, step: (dayIndex * 24 + hour - 1) * perHour + part, cells };
    }
  }
  leap.say('leap-day', 'of 29 February', 'a year of 365 days; they are left out', found);
}

/** Which record of its hour a minute ends, from 0; NaN where none does. */
function partOfHour(minute: number, perHour: number): number {
  if (perHour === 1) return minute >= 0 && minute <= 60 ? 0 : Number.NaN;
  const part = (minute * perHour) / 60 - 1;
  return part >= 0 && part < perHour && Number.isInteger(part) ? part : Number.NaN;
}
