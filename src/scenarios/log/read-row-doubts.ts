import type { ScannedCsv } from '../csv-scan.ts';
import type { RowTimes } from '../csv-times.ts';
import { type Findings, quoted } from '../findings.ts';
import type { SiteLog } from '../site-schema.ts';

/** Columns that are not in the header, or twice. */
export function headerProblems(csv: ScannedCsv, names: readonly string[], found: Findings): void {
  const spot = { line: csv.headerLine };
  for (const name of names) {
    const first = csv.header.indexOf(name);
    if (first < 0) {
      const all = csv.header.map(quoted).join(', ');
      const want = `one of ${all.length > 300 ? `${all.slice(0, 300)} ...` : all}`;
      found.error('missing-column', name, `no column '${name}'`, want, spot);
    } else if (csv.header.lastIndexOf(name) !== first)
      found.error('column-twice', name, `two columns '${name}'`, 'names of their own', spot);
  }
}

/** Rows that are left out: they have no date, or not the header's number of cells. */
export function tellRows(csv: ScannedCsv, dated: Int32Array, found: Findings): void {
  const left = csv.rows - dated.length;
  if (left === 0) return;
  let first = 0;
  while (dated[first] === first) first++;
  const rows = left === 1 ? '1 row' : `${left} rows`;
  const got = `${rows} without a date or with another number of cells than the header, the first here`;
  found.doubt(
    'rows-left-out',
    'rows',
    got,
    'data in every row; a header repeated, a footer and a cut line are left out',
    {
      line: csv.lines[first],
    },
  );
}

/** A column of which more than this share is text has another way of writing numbers. */
const MOST_TEXT = 0.5;

/** Cells that are no numbers count as missing; a column without numbers is refused. */
export function tellCells(csv: ScannedCsv, log: SiteLog, found: Findings): void {
  for (const name of Object.keys(log.columns)) {
    const column = csv.header.indexOf(name);
    const values = csv.numbers.get(column) as Float64Array;
    let none = 0;
    for (const value of values.subarray(0, csv.rows)) none += Number(Number.isNaN(value));
    const text = csv.notNumbers.find(([, at]) => at === column);
    const spot = text && { line: csv.lines[text[0]], column: column + 1 };
    if (none === csv.rows || (text !== undefined && none > MOST_TEXT * csv.rows)) {
      const got = text
        ? `${none} of ${csv.rows} cells without a number, such as ${quoted(text[2])}`
        : 'no number at all';
      found.error(
        'no-numbers',
        name,
        got,
        wantNumbers(text?.[2] ?? '', log.decimalComma),
        spot ?? { line: csv.headerLine },
      );
    } else if (text !== undefined)
      found.doubt(
        'text',
        name,
        `${quoted(text[2])}, the first text in place of a number`,
        'numbers; such cells count as missing',
        spot,
      );
  }
}

function wantNumbers(text: string, decimalComma: boolean): string {
  if (!decimalComma && /^-?[\d.]*,\d+$/.test(text)) return 'decimalComma: true in the site file';
  if (decimalComma && /^-?\d+\.\d+$/.test(text)) return 'decimalComma: false in the site file';
  return 'numbers in most rows';
}

/** Rows whose time cannot be read are left out; the order of day and month must be settled. */
export function tellTimes(
  times: RowTimes,
  csv: ScannedCsv,
  log: SiteLog,
  zone: string,
  found: Findings,
): void {
  const lost = new Map<string, { count: number; line: number | undefined }>();
  for (const issue of times.issues) {
    const { code, path, got, want, at } = issue;
    if (code === 'bad-time' || code === 'skipped-hour') {
      const seen = lost.get(code) ?? { count: 0, line: at.line };
      lost.set(code, { ...seen, count: seen.count + 1 });
    } else if (code === 'more') continue;
    else if (issue.severity === 'error') found.error(code, path, got, want, { line: at.line });
    else found.doubt(code, path, got, want, { line: at.line });
  }
  const total = times.atS.reduce((sum, atS) => sum + Number(Number.isNaN(atS)), 0);
  const listed = [...lost.values()].reduce((sum, { count }) => sum + count, 0);
  const more = total > listed ? ' or more' : '';
  const bad = lost.get('bad-time');
  const skipped = lost.get('skipped-hour');
  if (bad)
    found.doubt(
      'bad-time',
      'time',
      `${bad.count}${more} rows whose date and time cannot be, the first here`,
      'such as 2025-07-01 14:30; they are left out',
      { line: bad.line },
    );
  if (skipped)
    found.doubt(
      'skipped-hour',
      'time',
      `${skipped.count}${more} rows at times that the clock of ${zone} leaves out in spring, the first here`,
      'log.timeZone as a fixed offset such as +01:00, if the recorder keeps standard time; they are left out',
      { line: skipped.line },
    );
  tellMonths(times.atS, csv, log, found);
}

/** Fewest jumps of a month at midnight that tell of days read as months. */
const FEW_JUMPS = 2;

/** Days that follow each other by months: day and month are swapped. */
function tellMonths(atS: Float64Array, csv: ScannedCsv, log: SiteLog, found: Findings): void {
  if (log.dateOrder === undefined || csv.yearFirst[0] === 1) return;
  let jumps = 0;
  let line = 0;
  for (let row = 1; row < atS.length; row++) {
    const days = (atS[row] - atS[row - 1]) / 86_400;
    if (days < 26 || days > 32) continue;
    if (jumps++ === 0) line = csv.lines[row];
  }
  if (jumps < FEW_JUMPS) return;
  const other = log.dateOrder === 'dmy' ? 'mdy' : 'dmy';
  found.doubt(
    'month-jumps',
    'time',
    `${jumps} days that are followed by one a month later, the first here`,
    `days in a row: dateOrder: ${other}?`,
    { line },
  );
}
