import { MOST_LISTED } from './listed-issues.ts';

/** A CSV's cells as numbers, read byte by byte: a year of minutes in well under a second. */
export interface ScannedCsv {
  /** header cells, unquoted and trimmed */
  header: string[];
  /** line number of the header, from 1 */
  headerLine: number;
  rows: number;
  /** line number of each row */
  lines: Uint32Array;
  /** per header cell: its number in each row; NaN where it is empty or not a number */
  numbers: Map<number, Float64Array>;
  /** where cells that are neither empty nor a number stand: [row, column, text], the first of them */
  notNumbers: [number, number, string][];
  /** how many such cells there are */
  allNotNumbers: number;
  /** digit groups of the time cells, six a row (year month day hour minute second, as written), and a row's zone */
  timeParts: Int32Array;
  /** 1 where the first group has four digits */
  yearFirst: Uint8Array;
  /** offset written in the cell [s]; NaN without one */
  writtenOffsetS: Float64Array;
  /** number of cells of each row */
  cells: Uint16Array;
  /** rows with another number of cells than the header: [row, cells], the first of them */
  ragged: [number, number][];
  /** how many such rows there are */
  allRagged: number;
}

export interface ScanOptions {
  delimiter: number;
  decimalComma: boolean;
  /** −9999 and −9900 are numbers like others, as they may be watts; else they mark what is missing */
  noMarks?: boolean;
  /** columns whose numbers are wanted */
  wanted: (header: string[]) => { numbers: number[]; times: number[] };
}

const NEWLINE = 10;
const QUOTE = 34;
const HASH = 35;
const MISSING = new Set([
  '',
  'nan',
  '?',
  '-',
  '--',
  'na',
  'n/a',
  'null',
  '-9999',
  '-9900',
  '-9999.0',
  '-9900.0',
]);

/** Past the lines at the top that are notes, not data (they begin with '#'), the byte-order mark and `sep=`. */
function skipNotes(bytes: Uint8Array): { at: number; line: number } {
  let at = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf ? 3 : 0;
  let line = 1;
  while (at < bytes.length && (bytes[at] === HASH || bytes[at] === NEWLINE || bytes[at] === 13)) {
    while (at < bytes.length && bytes[at] !== NEWLINE) at++;
    at++;
    line++;
  }
  // a spreadsheet's own line that names the delimiter
  if (namesDelimiter(bytes, at)) return { at: lineEnd(bytes, at) + 1, line: line + 1 };
  return { at, line };
}

/** A line such as `sep=;`. */
function namesDelimiter(bytes: Uint8Array, at: number): boolean {
  return /^sep=.\r?\n/i.test(String.fromCharCode(...bytes.subarray(at, at + 7)));
}

/** The delimiter that the header line has most of: ';', tab or ','. */
export function guessDelimiter(bytes: Uint8Array): number {
  const { at } = skipNotes(bytes);
  const counts = new Map([
    [59, 0],
    [9, 0],
    [44, 0],
  ]);
  for (let i = at; i < bytes.length && bytes[i] !== NEWLINE; i++) {
    const count = counts.get(bytes[i]);
    if (count !== undefined) counts.set(bytes[i], count + 1);
  }
  return [...counts].sort((a, b) => b[1] - a[1])[0][0];
}

/** Reads header and rows. Quoted cells may not hold line breaks. */
export function scanCsv(bytes: Uint8Array, options: ScanOptions): ScannedCsv {
  const start = skipNotes(bytes);
  let at = start.at;
  const headerEnd = lineEnd(bytes, at);
  const decoder = new TextDecoder('utf-8');
  const text = decoder.decode(bytes.subarray(at, headerEnd)).replace(/\r$/, '');
  const header = text
    .split(String.fromCharCode(options.delimiter))
    .map((cell) => cell.trim().replace(/^"|"$/g, ''));
  at = headerEnd + 1;
  const most = countLines(bytes, at);
  const { numbers: wanted, times } = options.wanted(header);
  const csv: ScannedCsv = {
    header,
    headerLine: start.line,
    rows: 0,
    lines: new Uint32Array(most),
    numbers: new Map(wanted.map((column) => [column, new Float64Array(most).fill(Number.NaN)])),
    notNumbers: [],
    allNotNumbers: 0,
    timeParts: new Int32Array(most * 6),
    yearFirst: new Uint8Array(most),
    writtenOffsetS: new Float64Array(most).fill(Number.NaN),
    cells: new Uint16Array(most),
    ragged: [],
    allRagged: 0,
  };
  const columns = header.map((_, column) => csv.numbers.get(column) ?? null);
  const isTime = header.map((_, column) => times.includes(column));
  let line = start.line;
  while (at < bytes.length) {
    line++;
    const end = lineEnd(bytes, at);
    const stop = end > at && bytes[end - 1] === 13 ? end - 1 : end;
    if (stop > at && bytes[at] !== HASH) readRow(bytes, at, stop, line, csv, columns, isTime, options);
    at = end + 1;
  }
  return csv;
}

function lineEnd(bytes: Uint8Array, from: number): number {
  const end = bytes.indexOf(NEWLINE, from);
  return end < 0 ? bytes.length : end;
}

function countLines(bytes: Uint8Array, from: number): number {
  let count = 1;
  for (let at = bytes.indexOf(NEWLINE, from); at >= 0; at = bytes.indexOf(NEWLINE, at + 1)) count++;
  return count;
}

function readRow(
  bytes: Uint8Array,
  from: number,
  stop: number,
  line: number,
  csv: ScannedCsv,
  columns: (Float64Array | null)[],
  isTime: boolean[],
  options: ScanOptions,
): void {
  const row = csv.rows;
  let column = 0;
  let groups = 0;
  let at = from;
  for (;;) {
    let cellFrom = at;
    let cellTo: number;
    if (bytes[at] === QUOTE) {
      cellFrom = at + 1;
      at = cellFrom;
      while (at < stop && bytes[at] !== QUOTE) at++;
      cellTo = at;
      while (at < stop && bytes[at] !== options.delimiter) at++;
    } else {
      while (at < stop && bytes[at] !== options.delimiter) at++;
      cellTo = at;
    }
    const numbers = columns[column] ?? null;
    if (numbers !== null) {
      const value = numberIn(bytes, cellFrom, cellTo, options.decimalComma);
      const isMark = (value === -9999 || value === -9900) && options.noMarks !== true;
      if (!Number.isNaN(value)) numbers[row] = isMark ? Number.NaN : value;
      else noteText(bytes, cellFrom, cellTo, row, column, csv);
    } else if (isTime[column]) groups = readTime(bytes, cellFrom, cellTo, row, groups, csv);
    column++;
    if (at >= stop) break;
    at++;
    if (at === stop) {
      column++;
      break;
    }
  }
  if (column !== columns.length && ++csv.allRagged <= MOST_LISTED) csv.ragged.push([row, column]);
  csv.cells[row] = column;
  csv.lines[row] = line;
  csv.rows++;
}

function noteText(bytes: Uint8Array, from: number, to: number, row: number, column: number, csv: ScannedCsv) {
  const text = new TextDecoder('latin1').decode(bytes.subarray(from, Math.min(to, from + 40))).trim();
  if (!MISSING.has(text.toLowerCase()) && ++csv.allNotNumbers <= MOST_LISTED)
    csv.notNumbers.push([row, column, text]);
}

/** A decimal number, with spaces around it; NaN when it is anything else, or a missing marker. */
function numberIn(bytes: Uint8Array, from: number, to: number, decimalComma: boolean): number {
  let at = from;
  let end = to;
  while (at < end && bytes[at] === 32) at++;
  while (end > at && bytes[end - 1] === 32) end--;
  if (at === end) return Number.NaN;
  const first = at;
  let sign = 1;
  if (bytes[at] === 45) {
    sign = -1;
    at++;
  } else if (bytes[at] === 43) at++;
  const point = decimalComma ? 44 : 46;
  let mantissa = 0;
  let digits = 0;
  let decimals = 0;
  let seenPoint = false;
  for (; at < end; at++) {
    const byte = bytes[at];
    if (byte >= 48 && byte <= 57) {
      mantissa = mantissa * 10 + (byte - 48);
      digits++;
      if (seenPoint) decimals++;
    } else if (byte === point && !seenPoint) seenPoint = true;
    else break;
  }
  if (at < end || digits > 15 || decimals > 15) {
    // an exponent, more digits than are exact this way, or no number at all
    const text = new TextDecoder('latin1').decode(bytes.subarray(first, end));
    const group = decimalComma ? /^[+-]?\d{1,3}(\.\d{3})+(,\d+)?$/ : /^[+-]?\d{1,3}(,\d{3})+(\.\d+)?$/;
    const bare = group.test(text) ? text.replaceAll(decimalComma ? '.' : ',', '') : text;
    // a point among decimal commas that groups nothing is not read as anything
    const plain = decimalComma ? (bare.includes('.') ? '' : bare.replace(',', '.')) : bare;
    const number = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(plain) ? Number(plain) : Number.NaN;
    return Number.isFinite(number) ? number : Number.NaN;
  }
  if (digits === 0) return Number.NaN;
  return (sign * mantissa) / POWERS[decimals];
}

const POWERS = Array.from({ length: 16 }, (_, i) => 10 ** i);

/** Digit groups of a time cell, and an offset such as +10:00 or Z after the time. @returns groups read so far */
function readTime(
  bytes: Uint8Array,
  from: number,
  to: number,
  row: number,
  groups: number,
  csv: ScannedCsv,
): number {
  let group = groups;
  let value = -1;
  let digits = 0;
  for (let at = from; at <= to; at++) {
    const byte = at < to ? bytes[at] : 0;
    if (byte >= 48 && byte <= 57) {
      value = (value < 0 ? 0 : value * 10) + (byte - 48);
      digits++;
      continue;
    }
    if (value >= 0 && group < 6) {
      csv.timeParts[row * 6 + group] = value;
      if (group === 0 && digits === 4) csv.yearFirst[row] = 1;
      group++;
    }
    value = -1;
    digits = 0;
    if (group >= 4 && (byte | 32) !== 109 && at + 1 < to && (bytes[at + 1] | 32) === 109) {
      // 'am' or 'pm' after the time
      const hour = csv.timeParts[row * 6 + 3];
      if ((byte | 32) === 112 && hour < 12) csv.timeParts[row * 6 + 3] = hour + 12;
      if ((byte | 32) === 97 && hour === 12) csv.timeParts[row * 6 + 3] = 0;
      break;
    }
    if (group >= 4 && (byte === 90 || byte === 43 || byte === 45)) {
      csv.writtenOffsetS[row] = byte === 90 ? 0 : offsetIn(bytes, at, to);
      break;
    }
  }
  return group;
}

function offsetIn(bytes: Uint8Array, at: number, to: number): number {
  const text = new TextDecoder('latin1').decode(bytes.subarray(at, to));
  const match = /^([+-])(\d{2}):?(\d{2})?/.exec(text);
  if (!match) return Number.NaN;
  const seconds = Number(match[2]) * 3600 + Number(match[3] ?? 0) * 60;
  return match[1] === '-' ? -seconds : seconds;
}
