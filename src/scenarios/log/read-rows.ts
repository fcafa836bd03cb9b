import { makeClock } from '../clock.ts';
import { guessDelimiter, type ScannedCsv, scanCsv } from '../csv-scan.ts';
import { rowTimes } from '../csv-times.ts';
import { type Findings, quoted } from '../findings.ts';
import type { SiteLog } from '../site-schema.ts';
import { headerProblems, tellCells, tellRows, tellTimes } from './read-row-doubts.ts';
import { inTimeOrder } from './read-row-order.ts';

/** A log's rows that can be used, in order of time, each instant once. */
export interface LogRows {
  /** as stamped, by the declared clock [s since 1970 UTC] */
  atS: Float64Array;
  lines: Uint32Array;
  /** the numbers in each row by header cell; NaN where there is none */
  cells: Map<string, Float64Array>;
  /** usual distance between rows: the median [s] */
  usualS: number;
  /** rows with a time, twice-written ones included */
  read: number;
  duplicates: number;
  resets: number;
}

/** A log of which more than this share of the rows cannot be used is refused. */
const MOST_SET_ASIDE = 0.1;

/**
 * Rows of a log file. Repeated headers, footers, cut lines and rows without a time are left out and counted.
 * @param zone the file's clock
 * @returns null with an error among what was found
 */
export function readRows(bytes: Uint8Array, log: SiteLog, zone: string, found: Findings): LogRows | null {
  const clock = makeClock(zone, Date.UTC(1970, 0, 1) / 1000, Date.UTC(2100, 0, 1) / 1000);
  if (clock === null)
    found.error('time-zone', 'timeZone', quoted(zone), "a zone such as 'Europe/Berlin', or '+10:00'");
  const headers = Object.keys(log.columns);
  const csv = scanCsv(bytes, {
    delimiter: guessDelimiter(bytes),
    decimalComma: log.decimalComma,
    noMarks: true,
    wanted: (header) => ({
      numbers: headers.map((name) => header.indexOf(name)).filter((i) => i >= 0),
      times: log.timeColumns?.map((name) => header.indexOf(name)) ?? [0],
    }),
  });
  if (csv.header.every((cell) => cell === '')) {
    found.error('empty', 'rows', 'an empty file', 'a header and rows below it');
    return null;
  }
  headerProblems(csv, [...headers, ...(log.timeColumns ?? [])], found);
  if (clock === null || found.hasErrors) return null;
  const dated = datedRows(csv);
  tellRows(csv, dated, found);
  if (dated.length < 2 || dated.length < (1 - MOST_SET_ASIDE) * csv.rows) {
    const got =
      csv.rows === 0
        ? 'no rows below the header'
        : `${dated.length} of ${csv.rows} rows with a date, a time and as many cells as the header`;
    found.error('few-rows', 'rows', got, 'nearly all rows; look at delimiter and header', {
      line: csv.headerLine,
    });
    return null;
  }
  const kept = keepRows(csv, dated);
  tellCells(kept, log, found);
  const times = rowTimes(kept, clock, '', log.dateOrder ?? null);
  tellTimes(times, kept, log, zone, found);
  const unread = times.atS.reduce((sum, atS) => sum + Number(Number.isNaN(atS)), 0);
  if (found.hasErrors || unread > MOST_SET_ASIDE * kept.rows) {
    if (!found.hasErrors)
      found.error(
        'few-times',
        'time',
        `${unread} of ${kept.rows} rows without a time that can be read`,
        'nearly none',
      );
    return null;
  }
  const ordered = inTimeOrder(times.atS, kept.lines, found);
  if (ordered === null) return null;
  const { order, ...counts } = ordered;
  const cells = headers.map((name): [string, Float64Array] => {
    const values = kept.numbers.get(kept.header.indexOf(name)) as Float64Array;
    return [name, Float64Array.from(order, (row) => values[row])];
  });
  const atS = Float64Array.from(order, (row) => times.atS[row]);
  const lines = Uint32Array.from(order, (row) => kept.lines[row]);
  return { ...counts, atS, lines, cells: new Map(cells) };
}

/** Rows with a date and the header's number of cells; all of them may have one more, empty behind a last delimiter. */
function datedRows({ rows, timeParts, cells, header }: ScannedCsv): Int32Array {
  let more = 0;
  for (let row = 0; row < rows; row++) more += Number(cells[row] === header.length + 1);
  const want = header.length + Number(more > rows / 2);
  const kept = new Int32Array(rows);
  let count = 0;
  for (let row = 0; row < rows; row++) {
    const at = row * 6;
    const hasDate = timeParts[at] > 0 && timeParts[at + 1] > 0 && timeParts[at + 2] > 0;
    if (hasDate && cells[row] === want) kept[count++] = row;
  }
  return kept.slice(0, count);
}

function keepRows(csv: ScannedCsv, kept: Int32Array): ScannedCsv {
  if (kept.length === csv.rows) return csv;
  const placeOf = new Map<number, number>();
  for (const [row, from] of kept.entries()) placeOf.set(from, row);
  const timeParts = new Int32Array(kept.length * 6);
  for (const [row, from] of kept.entries())
    timeParts.set(csv.timeParts.subarray(from * 6, from * 6 + 6), row * 6);
  return {
    ...csv,
    rows: kept.length,
    lines: Uint32Array.from(kept, (from) => csv.lines[from]),
    numbers: new Map(
      [...csv.numbers].map(([column, values]) => [column, Float64Array.from(kept, (from) => values[from])]),
    ),
    // those of rows left out are told with them
    notNumbers: csv.notNumbers.flatMap(([from, column, text]): [number, number, string][] => {
      const row = placeOf.get(from);
      return row === undefined ? [] : [[row, column, text]];
    }),
    timeParts,
    yearFirst: Uint8Array.from(kept, (from) => csv.yearFirst[from]),
    writtenOffsetS: Float64Array.from(kept, (from) => csv.writtenOffsetS[from]),
    cells: Uint16Array.from(kept, (from) => csv.cells[from]),
  };
}
