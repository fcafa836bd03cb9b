import { makeClock } from './clock.ts';
import { guessDelimiter, type ScannedCsv, scanCsv } from './csv-scan.ts';
import { type DateOrder, rowTimes } from './csv-times.ts';
import { makeSheet } from './data-sheet.ts';
import { fillGaps } from './gaps.ts';
import type { Issue } from './issue.ts';
import { MOST_LISTED, withRest } from './listed-issues.ts';
import { registerPowers } from './register.ts';
import type { Gap, Quantity, ReadResult, Series, TimeAxis } from './series.ts';

/** One column to read: its header cell, what it measures and in which unit. */
export interface CsvColumn {
  column: string;
  quantity: Quantity;
  unit: CsvUnit;
}

/** kWh, Wh, mm and cm are sums over an interval, a register is a running total of kWh, A is current; the others are means. */
type CsvUnit = 'kW' | 'W' | 'kWh' | 'Wh' | 'kWh register' | 'A' | 'W/m2' | 'C' | 'm/s' | 'mm' | 'cm';

export interface CsvOptions {
  columns: readonly CsvColumn[];
  /** header cells of date and time; default: the first column */
  timeColumns?: readonly string[];
  stamp: 'start' | 'end';
  timeZone: string;
  dateOrder?: DateOrder | null;
  decimalComma?: boolean;
  /** of columns in amperes */
  phaseV?: number;
  powerFactor?: number;
  maxGapMin: number;
}

/**
 * Reads a plain CSV: a header, one row an interval, notes at the top behind '#'.
 * Errors: an issue list, with the line of each problem; then no series.
 */
export function readCsv(bytes: Uint8Array, file: string, options: CsvOptions): ReadResult {
  const issues: Issue[] = [];
  const csv = scanCsv(bytes, {
    delimiter: guessDelimiter(bytes),
    decimalComma: options.decimalComma ?? false,
    wanted: (header) => {
      const numbers = options.columns.map(({ column }) => header.indexOf(column));
      const times = options.timeColumns?.map((column) => header.indexOf(column)) ?? [0];
      return { numbers: numbers.filter((i) => i >= 0), times };
    },
  });
  for (const { column } of options.columns)
    if (!csv.header.includes(column)) issues.push(missingColumn(column, csv, file));
  for (const { column } of options.columns)
    if (csv.header.indexOf(column) !== csv.header.lastIndexOf(column))
      issues.push(twiceNamed(column, csv, file));
  issues.push(...cellIssues(csv, file));
  if (csv.rows < 2) issues.push(tooShort(csv, file));
  const clock = makeClock(options.timeZone, Date.UTC(1970, 0, 1) / 1000, Date.UTC(2100, 0, 1) / 1000);
  if (clock === null) issues.push(badZone(options.timeZone, file));
  if (issues.length > 0 || clock === null) return { series: [], sheet: null, issues };

  const times = rowTimes(csv, clock, file, options.dateOrder ?? null);
  issues.push(...times.issues);
  const rowsAxis = findAxis(times.atS, options.stamp);
  if (rowsAxis === null) issues.push(tooShort(csv, file));
  else if (rowsAxis.count > MOST_STEPS_PER_ROW * csv.rows) issues.push(mostlyHoles(csv, rowsAxis, file));
  if (rowsAxis === null || issues.some((issue) => issue.severity === 'error'))
    return { series: [], sheet: null, issues };

  // the last reading of a register only ends an interval
  const runsOn = options.columns.some(({ unit }) => unit === 'kWh register');
  const axis = { ...rowsAxis, count: rowsAxis.count - Number(runsOn) };
  const placed = placeRows(times.atS, rowsAxis, options.stamp, csv, file);
  issues.push(...placed.issues);
  const gaps: Gap[] = [];
  const fromRegister = (readings: Float64Array, name: string) => {
    const powers = registerPowers(readings, rowsAxis, options.maxGapMin, name, file);
    gaps.push(...powers.gaps);
    issues.push(...powers.issues);
    return powers.kw;
  };
  const series = options.columns.map((column): Series => {
    const cells = csv.numbers.get(csv.header.indexOf(column.column)) as Float64Array;
    const values = new Float64Array(rowsAxis.count).fill(Number.NaN);
    const factor = unitFactor(column.unit, axis.stepMin, options);
    for (let row = 0; row < csv.rows; row++)
      if (placed.step[row] >= 0) values[placed.step[row]] = cells[row] * factor;
    const means =
      column.unit === 'kWh register' ? fromRegister(values, column.column) : values.subarray(0, axis.count);
    const filled = fillGaps(means, axis, options.maxGapMin, column.column, file);
    gaps.push(...filled.gaps);
    issues.push(...filled.issues);
    return { name: column.column, quantity: column.quantity, axis, values: means };
  });
  const energies = options.columns.some(({ unit }) => unit === 'kWh' || unit === 'Wh');
  if (energies && gaps.length > 0) issues.push(energyBesideGaps(gaps.length, file));
  const failed = issues.some((issue) => issue.severity === 'error');
  const sheet = makeSheet({
    file,
    reader: 'csv',
    chosenBecause: 'named in the site file',
    timeZone: `${options.timeZone}, stamps at interval ${options.stamp}`,
    axis,
    series,
    gaps,
    duplicates: placed.duplicates,
  });
  return { series: failed ? [] : series, sheet, issues };
}

/** A file with fewer rows than this share of its steps has a wrong date in it. */
const MOST_STEPS_PER_ROW = 4;

function mostlyHoles(csv: ScannedCsv, axis: TimeAxis, file: string): Issue {
  return {
    severity: 'error',
    code: 'mostly-holes',
    path: 'time',
    got: `${csv.rows} rows over a span of ${axis.count} steps of ${axis.stepMin} min`,
    want: 'a row for most steps; look for a wrong year or date',
    at: { file, line: csv.headerLine },
  };
}

/** Rows of energy beside a hole may cover the hole too: nobody can tell from the file. */
function energyBesideGaps(gaps: number, file: string): Issue {
  const got = `${gaps} ${gaps === 1 ? 'gap' : 'gaps'} in rows of energy per interval`;
  const want =
    'a row for every interval: a row beside a gap may already hold its energy, which is then counted twice';
  return { severity: 'doubt', code: 'energy-beside-gap', path: 'time', got, want, at: { file } };
}

/** Factor from a column's unit to that of its quantity. */
function unitFactor(unit: CsvUnit, stepMin: number, options: CsvOptions): number {
  if (unit === 'W') return 1 / 1000;
  if (unit === 'A') return ((options.phaseV ?? 230) * (options.powerFactor ?? 1)) / 1000;
  if (unit === 'kWh' || unit === 'mm' || unit === 'cm') return 60 / stepMin;
  if (unit === 'Wh') return 60 / stepMin / 1000;
  return 1;
}

/** The axis: the commonest distance between rows, from the first row to the last. */
function findAxis(atS: Float64Array, stamp: 'start' | 'end'): TimeAxis | null {
  const counts = new Map<number, number>();
  let first = Number.POSITIVE_INFINITY;
  let last = Number.NEGATIVE_INFINITY;
  for (let row = 0; row < atS.length; row++) {
    if (Number.isNaN(atS[row])) continue;
    first = Math.min(first, atS[row]);
    last = Math.max(last, atS[row]);
    const step = atS[row] - atS[row - 1];
    if (step > 0) counts.set(step, (counts.get(step) ?? 0) + 1);
  }
  const stepS = [...counts].sort((a, b) => b[1] - a[1])[0]?.[0];
  if (stepS === undefined || stepS % 60 !== 0 || 3600 % stepS !== 0) return null;
  const startS = stamp === 'start' ? first : first - stepS;
  return { startS, stepMin: stepS / 60, count: Math.round((last - first) / stepS) + 1 };
}

function placeRows(
  atS: Float64Array,
  axis: TimeAxis,
  stamp: 'start' | 'end',
  csv: ScannedCsv,
  file: string,
): { step: Int32Array; duplicates: number; issues: Issue[] } {
  const stepS = axis.stepMin * 60;
  const shiftS = stamp === 'start' ? 0 : stepS;
  const step = new Int32Array(atS.length).fill(-1);
  const taken = new Uint8Array(axis.count);
  const astray: Issue[] = [];
  let allAstray = 0;
  let duplicates = 0;
  for (let row = 0; row < atS.length; row++) {
    const place = (atS[row] - shiftS - axis.startS) / stepS;
    const index = Math.round(place);
    if (Math.abs(place - index) > 1e-6) {
      if (++allAstray <= MOST_LISTED) astray.push(offGrid(csv, row, axis, file));
    } else if (taken[index] === 1) duplicates++;
    else {
      taken[index] = 1;
      step[row] = index;
    }
  }
  const issues = withRest(astray, allAstray);
  if (duplicates > 0)
    issues.push({
      severity: 'doubt',
      code: 'duplicates',
      path: 'time',
      got: `${duplicates} rows for intervals that were there already`,
      want: 'one row for each interval; the first was kept',
      at: { file },
    });
  return { step, duplicates, issues };
}

function cellIssues(csv: ScannedCsv, file: string): Issue[] {
  const text = csv.notNumbers.map(
    ([row, column, found]): Issue => ({
      severity: 'error',
      code: 'not-a-number',
      path: csv.header[column],
      got: `'${found}'`,
      want: 'a number, or nothing where the value is missing',
      at: { file, line: csv.lines[row], column: column + 1 },
    }),
  );
  const ragged = csv.ragged.map(
    ([row, cells]): Issue => ({
      severity: 'error',
      code: 'ragged-row',
      path: 'row',
      got: `${cells} cells`,
      want: `${csv.header.length}, as in the header`,
      at: { file, line: csv.lines[row] },
    }),
  );
  return [...withRest(text, csv.allNotNumbers), ...withRest(ragged, csv.allRagged)];
}

function missingColumn(column: string, csv: ScannedCsv, file: string): Issue {
  const names = csv.header.map((name) => `'${name.replace(/[^\p{L}\p{N}\p{P}\p{S} ]/gu, '?')}'`).join(', ');
  const want = `one of ${names.length > 300 ? `${names.slice(0, 300)} ...` : names}`;
  return {
    severity: 'error',
    code: 'missing-column',
    path: column,
    got: `no column '${column}'`,
    want,
    at: { file, line: csv.headerLine },
  };
}

function twiceNamed(column: string, csv: ScannedCsv, file: string): Issue {
  const at = { file, line: csv.headerLine };
  return {
    severity: 'error',
    code: 'column-twice',
    path: column,
    got: `two columns '${column}'`,
    want: 'names of their own',
    at,
  };
}

function tooShort(csv: ScannedCsv, file: string): Issue {
  return {
    severity: 'error',
    code: 'no-step',
    path: 'time',
    got: `${csv.rows} rows without a regular step of whole minutes that divides an hour`,
    want: 'rows in steps of 1 to 60 minutes',
    at: { file, line: csv.headerLine },
  };
}

function offGrid(csv: ScannedCsv, row: number, axis: TimeAxis, file: string): Issue {
  return {
    severity: 'error',
    code: 'off-step',
    path: 'time',
    got: 'a time between the steps',
    want: `steps of ${axis.stepMin} min from the first row`,
    at: { file, line: csv.lines[row] },
  };
}

function badZone(zone: string, file: string): Issue {
  return {
    severity: 'error',
    code: 'time-zone',
    path: 'timeZone',
    got: `'${zone}'`,
    want: "a zone such as 'Europe/Berlin' or an offset such as '+10:00'",
    at: { file },
  };
}
