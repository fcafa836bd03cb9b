import { type Clock, instantsOf } from './clock.ts';
import type { ScannedCsv } from './csv-scan.ts';
import type { Issue } from './issue.ts';
import { MOST_LISTED, withRest } from './listed-issues.ts';

export type DateOrder = 'ymd' | 'dmy' | 'mdy';

/** The instant of each row as written [s since 1970 UTC], NaN where it means none. */
export interface RowTimes {
  atS: Float64Array;
  issues: Issue[];
}

/**
 * Dates and times of the rows by the file's clock. The order of day and month is settled for the whole file; a
 * repeated autumn hour is told apart by its place in the file; 24:00 is the next midnight; a midnight that is
 * printed after 23:xx with the old date is put right and counted.
 */
export function rowTimes(csv: ScannedCsv, clock: Clock, file: string, order: DateOrder | null): RowTimes {
  const issues: Issue[] = [];
  const settled = settleOrder(csv, file, order, issues);
  const atS = new Float64Array(csv.rows).fill(Number.NaN);
  if (settled === null) return { atS, issues };
  let last = Number.NEGATIVE_INFINITY;
  let lastLocal = Number.NaN;
  let wrongMidnights = 0;
  const misread: Issue[] = [];
  let allMisread = 0;
  for (let row = 0; row < csv.rows; row++) {
    let local = localSeconds(csv, row, settled);
    if (Number.isNaN(local)) {
      if (++allMisread <= MOST_LISTED) misread.push(badTime(csv, row, file));
      continue;
    }
    if (local % 86400 === 0 && lastLocal - local > 79_200 && lastLocal - local < 86_400) {
      local += 86_400;
      wrongMidnights++;
    }
    const written = csv.writtenOffsetS[row];
    const choices = Number.isNaN(written) ? instantsOf(clock, local) : [local - written];
    if (choices.length === 0) {
      if (++allMisread <= MOST_LISTED) misread.push(skippedHour(csv, row, file, clock));
      continue;
    }
    atS[row] = choices.find((choice) => choice > last) ?? choices[choices.length - 1];
    last = atS[row];
    lastLocal = local;
  }
  issues.push(...withRest(misread, allMisread));
  if (wrongMidnights > 0)
    issues.push({
      severity: 'doubt',
      code: 'midnight-date',
      path: 'time',
      got: `${wrongMidnights} midnights printed with the date of the day that ends there`,
      want: 'the new date; they were put right',
      at: { file },
    });
  return { atS, issues };
}

function settleOrder(
  csv: ScannedCsv,
  file: string,
  order: DateOrder | null,
  issues: Issue[],
): DateOrder | null {
  if (csv.rows === 0 || csv.yearFirst[0] === 1) return 'ymd';
  let first = 0;
  let second = 0;
  for (let row = 0; row < csv.rows; row++) {
    first = Math.max(first, csv.timeParts[row * 6]);
    second = Math.max(second, csv.timeParts[row * 6 + 1]);
  }
  const seen: DateOrder | null =
    first > 12 && second <= 12 ? 'dmy' : second > 12 && first <= 12 ? 'mdy' : null;
  if (seen !== null && (order === null || order === seen)) return seen;
  if (seen === null && order !== null) return order;
  const clash = seen !== null;
  issues.push({
    severity: 'error',
    code: 'date-order',
    path: 'time',
    got: clash ? `dates that can only be ${seen}` : 'dates in which day and month cannot be told apart',
    want: clash ? `dateOrder: ${seen}` : 'dateOrder: dmy or mdy in the site file',
    at: { file, line: csv.lines[0] },
  });
  return null;
}

/** Local seconds as if UTC; NaN for no date. */
function localSeconds(csv: ScannedCsv, row: number, order: DateOrder): number {
  const [a, b, c, hour, minute, second] = csv.timeParts.subarray(row * 6, row * 6 + 6);
  const [year, month, day] = order === 'ymd' ? [a, b, c] : order === 'dmy' ? [c, b, a] : [c, a, b];
  const valid =
    month >= 1 && month <= 12 && day >= 1 && day <= 31 && hour <= 24 && minute < 60 && second < 60;
  if (!valid || year < 1900 || year > 2200) return Number.NaN;
  const days = Date.UTC(year, month - 1, day) / 1000;
  if (new Date(days * 1000).getUTCDate() !== day) return Number.NaN;
  return days + hour * 3600 + minute * 60 + second;
}

function badTime(csv: ScannedCsv, row: number, file: string): Issue {
  return {
    severity: 'error',
    code: 'bad-time',
    path: 'time',
    got: `a row without a date and time (${csv.timeParts.subarray(row * 6, row * 6 + 5).join(' ')})`,
    want: 'such as 2025-07-01 14:30',
    at: { file, line: csv.lines[row] },
  };
}

function skippedHour(csv: ScannedCsv, row: number, file: string, clock: Clock): Issue {
  return {
    severity: 'error',
    code: 'skipped-hour',
    path: 'time',
    got: `a time that the clock of ${clock.name} leaves out in spring`,
    want: "times of the site's clock, or timeZone as a fixed offset such as +10:00",
    at: { file, line: csv.lines[row] },
  };
}
