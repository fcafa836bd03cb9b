import { makeSheet } from './data-sheet.ts';
import { type Findings, quoted } from './findings.ts';
import { fillGaps } from './gaps.ts';
import { layRows, Occurrences, type StampedRow, type StepNames } from './lay-rows.ts';
import { headLine, type PvgisFile, type PvgisRow, pvgisRows } from './pvgis-table.ts';
import type { Gap, ReadResult, Series, TimeAxis } from './series.ts';
import { checkAgainstSun } from './sun-checks.ts';
import { QUANTITY_NAMES, refused } from './typical-year.ts';
import type { WeatherColumn } from './weather-cells.ts';
import { cellsOf, decimal } from './weather-text.ts';

const PARTS = ['Gb(i)', 'Gd(i)', 'Gr(i)'];
const WHOLE = 'G(i)';
const OTHERS = ['T2m', 'WS10m', 'Int'];
/** Marks hours whose irradiance was reconstructed. */
const RECONSTRUCTED = 'Int';

/**
 * Hours on the plane of an array: `time,Gb(i),Gd(i),Gr(i),H_sun,T2m,WS10m,Int` or `time,G(i),...`, rows
 * `YYYYMMDD:HHMM` in UTC. The irradiance on the plane is the sum of its parts. The minute is that of the satellite's
 * picture, or 30 where hours were averaged: every value stands for the hour around its stamp, so the steps begin
 * half an hour before the first stamp. The plane's azimuth is 0 south, 90 west in the file and counts clockwise from
 * north here.
 */
export function readPvgisHours(opened: PvgisFile, found: Findings): ReadResult {
  const { file, lines, header, place, maxGapMin } = opened;
  const columns = columnsOf(opened, found);
  const plane = planeOf(opened, found);
  const rows = [...pvgisRows(lines, header, found)];
  if (rows.length === 0)
    found.error('rows', 'rows', 'no rows', 'hours of data below the header', { line: header + 1 });
  const minute = commonMinute(rows, found);
  const axis = axisOf(rows, minute, maxGapMin, found);
  if (found.hasErrors || axis === null) return refused(found);

  const beginsS = (row: PvgisRow) => hourS(row) + (minute - 30) * 60;
  const stepOf = (row: PvgisRow) => (beginsS(row) - axis.startS) / 3600;
  const laid = layRows(stampedRows(rows, stepOf), stepNames(axis), columns, maxGapMin, found);
  const gaps: Gap[] = [];
  const series = [...laid.values].map(([quantity, values]): Series => {
    const filled = fillGaps(values, axis, maxGapMin, QUANTITY_NAMES[quantity], file);
    gaps.push(...filled.gaps);
    found.add(filled.issues);
    return { name: QUANTITY_NAMES[quantity], quantity, axis, values };
  });
  if (!found.hasErrors) checkAgainstSun(laid, axis, place, found);
  const { tiltDeg, azimuthDeg } = plane;
  const sheet = makeSheet({
    file,
    reader: 'pvgis',
    chosenBecause: 'first line is Latitude (decimal degrees):',
    timeZone: `UTC; stamps at minute ${minute}, each value for the hour around its stamp; plane tilted ${tiltDeg}°, facing ${azimuthDeg}° from north`,
    axis,
    series,
    gaps,
    duplicates: laid.duplicates,
    estimated: reconstructed(opened, rows, found),
  });
  const issues = found.issues;
  return { series: found.hasErrors ? [] : series, sheet, issues, location: place, plane };
}

function columnsOf({ names, header }: PvgisFile, found: Findings): WeatherColumn[] {
  const at = { line: header + 1 };
  const parts = PARTS.map((name) => names.indexOf(name));
  const onPlane = names.includes(WHOLE) ? [names.indexOf(WHOLE)] : parts;
  if (onPlane.includes(-1)) {
    const want = `${WHOLE}, or ${PARTS.join(', ')}`;
    found.error('header', 'irradiance on the plane', quoted(names.join(',')), want, at);
  }
  for (const name of OTHERS)
    if (!names.includes(name)) found.doubt('header', name, 'no such column', `a column '${name}'`, at);
  const known = [...PARTS, WHOLE, ...OTHERS, 'time', 'H_sun'];
  const others = names.filter((name) => !known.includes(name));
  if (others.length > 0)
    found.doubt(
      'header',
      'columns',
      quoted(others.join(', ')),
      'irradiance, air and wind; these are left out',
      at,
    );
  const isMissing = () => false;
  const name = names.includes(WHOLE) ? WHOLE : PARTS.join('+');
  const columns: WeatherColumn[] = [{ quantity: 'poaWPerM2', name, at: onPlane, isMissing }];
  const air = names.indexOf('T2m');
  const wind = names.indexOf('WS10m');
  if (air >= 0) columns.push({ quantity: 'airC', name: 'T2m', at: [air], isMissing });
  if (wind >= 0) columns.push({ quantity: 'windMPerS', name: 'WS10m', at: [wind], isMissing });
  return columns;
}

/** Slope and azimuth, written `30 deg.` or `30 deg. (optimum)`. */
function planeOf({ lines, header }: PvgisFile, found: Findings): { tiltDeg: number; azimuthDeg: number } {
  const degrees = (name: string, least: number, most: number) => {
    const { text, line } = headLine(lines, header, name);
    const value = decimal(/^(\S+) deg\./.exec(text ?? '')?.[1]);
    const want = `${least} to ${most} deg., of an array that does not move`;
    if (!(value >= least && value <= most)) found.error('plane', name, quoted(text ?? ''), want, { line });
    return value;
  };
  const tiltDeg = degrees('Slope', 0, 90);
  return { tiltDeg, azimuthDeg: (degrees('Azimuth', -180, 180) + 180) % 360 };
}

/** The minute of most stamps; others are doubted and their rows stand for the same clock hour. */
function commonMinute(rows: readonly PvgisRow[], found: Findings): number {
  const counts = new Map<number, number>();
  for (const { minute } of rows) counts.set(minute, (counts.get(minute) ?? 0) + 1);
  const [common = 30] = [...counts].sort((a, b) => b[1] - a[1])[0] ?? [];
  const others = rows.filter(({ minute }) => minute !== common);
  if (others.length > 0) {
    const got = `${others.length} ${others.length === 1 ? 'stamp' : 'stamps'} at another minute, the first here`;
    found.doubt('minute', 'time', got, `minute ${common}, as in most rows; read so`, {
      line: others[0].line,
    });
  }
  return common;
}

/** Beginning of a row's clock hour [s]. */
function hourS({ year, month, day, hour }: PvgisRow): number {
  return Date.UTC(year, month - 1, day, hour) / 1000;
}

/** From the first stamp to the last. A hole too long to fill is found here, before room is made for it. */
function axisOf(
  rows: readonly PvgisRow[],
  minute: number,
  maxGapMin: number,
  found: Findings,
): TimeAxis | null {
  const ordered = [...rows].sort((a, b) => hourS(a) - hourS(b));
  for (const [i, row] of ordered.entries()) {
    const hours = i === 0 ? 0 : (hourS(row) - hourS(ordered[i - 1])) / 3600 - 1;
    if (hours * 60 <= maxGapMin) continue;
    const got = `no rows for ${hours} h before ${quoted(row.stamp)}`;
    found.error('rows', 'rows', got, `an hour each, with holes of at most ${maxGapMin} min`, {
      line: row.line,
    });
  }
  if (ordered.length === 0) return null;
  const first = hourS(ordered[0]);
  const count = (hourS(ordered[ordered.length - 1]) - first) / 3600 + 1;
  return { startS: first + (minute - 30) * 60, stepMin: 60, count };
}

function stepNames(axis: TimeAxis): StepNames {
  const middle = (step: number) => new Date((axis.startS + (step + 0.5) * 3600) * 1000);
  return {
    count: axis.count,
    stepMin: 60,
    dayOf: (step) => {
      const at = middle(step);
      return Math.floor((at.getTime() - Date.UTC(at.getUTCFullYear(), 0, 1)) / 86_400_000) + 1;
    },
    stampOf: (step) => `${middle(step).toISOString().slice(0, 16)}Z`,
    rows: 'hours',
    whole: 'from the first row to the last',
  };
}

function* stampedRows(rows: readonly PvgisRow[], stepOf: (row: PvgisRow) => number): Generator<StampedRow> {
  for (const row of rows) yield { line: row.line, step: stepOf(row), cells: cellsOf(row.text) };
}

/** How many hours are marked as reconstructed. */
function reconstructed({ names }: PvgisFile, rows: readonly PvgisRow[], found: Findings): number {
  const at = names.indexOf(RECONSTRUCTED);
  if (at < 0) return 0;
  const odd = new Occurrences();
  let count = 0;
  for (const { text, line } of rows) {
    const mark = decimal(cellsOf(text)[at]);
    if (mark === 1) count++;
    else if (mark !== 0) odd.see(line);
  }
  odd.say('mark', `without 0 or 1 under ${RECONSTRUCTED}`, '0, or 1 for a reconstructed hour', found);
  return count;
}
