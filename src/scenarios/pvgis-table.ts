import { type Findings, quoted } from './findings.ts';
import { placeFrom, type WeatherPlace } from './weather-place.ts';
import { cellsOf } from './weather-text.ts';

/** A PVGIS file whose table has been found. */
export interface PvgisFile {
  file: string;
  lines: readonly string[];
  /** line of the table's header, from 0 */
  header: number;
  /** header cells */
  names: readonly string[];
  place: WeatherPlace;
  maxGapMin: number;
}

/** A row of a PVGIS table. */
export interface PvgisRow {
  line: number;
  year: number;
  month: number;
  day: number;
  hour: number;
  minute: number;
  /** the stamp as it is written */
  stamp: string;
  /** the whole row */
  text: string;
}

/** A line above the table, `name: text`; `text` is undefined where there is none. */
export function headLine(lines: readonly string[], header: number, name: string) {
  const index = lines.findIndex((line, i) => i < header && line.startsWith(name));
  if (index < 0) return { text: undefined, line: 1 };
  return { text: lines[index].slice(lines[index].indexOf(':') + 1).trim(), line: index + 1 };
}

/** Place of the file; its times are in UTC. */
export function pvgisPlace(lines: readonly string[], header: number, found: Findings): WeatherPlace {
  return placeFrom(
    {
      latDeg: headLine(lines, header, 'Latitude'),
      lonDeg: headLine(lines, header, 'Longitude'),
      elevationM: headLine(lines, header, 'Elevation'),
      utcOffsetH: { text: '0', line: 1 },
    },
    found,
  );
}

/** A row begins with its stamp. */
export const ROW = /^(\d{4})(\d\d)(\d\d):(\d\d)(\d\d),/;
/** `T2m: 2-m air temperature`, or the line of the licence: what may follow the table. */
const NOTE = /^(\w[\w() ]*: |PVGIS)/;

/**
 * Rows `YYYYMMDD:HHMM,...` from below the header to the first line without a stamp, which must be blank or a note.
 * Errors: a row of another width, a day or time that does not exist, rows that come after the end, some other line
 * where the table ends. A table that ends with the file is a doubt: the notes that end every such file are not there.
 */
export function* pvgisRows(lines: readonly string[], header: number, found: Findings): Generator<PvgisRow> {
  const width = cellsOf(lines[header]).length;
  let i = header + 1;
  for (; i < lines.length && !found.isFull; i++) {
    const match = ROW.exec(lines[i]);
    if (!match) break;
    const line = i + 1;
    const [year, month, day, hour, minute] = match.slice(1).map(Number);
    const cells = cellsOf(lines[i]);
    const at = new Date(Date.UTC(year, month - 1, day));
    if (cells.length !== width)
      found.error('ragged-row', 'row', `${cells.length} cells`, `${width}, as in the header`, { line });
    else if (at.getUTCMonth() !== month - 1 || at.getUTCDate() !== day || hour > 23 || minute > 59)
      found.error('stamp', 'time', quoted(cells[0]), 'a time that exists, YYYYMMDD:HHMM', {
        line,
        column: 1,
      });
    else yield { line, year, month, day, hour, minute, stamp: cells[0], text: lines[i] };
  }
  if (!found.isFull) checkEnd(lines, i, found);
}

function checkEnd(lines: readonly string[], end: number, found: Findings): void {
  const later = lines.findIndex((line, i) => i > end && ROW.test(line));
  const ending = lines[end] ?? '';
  const want = 'rows YYYYMMDD:HHMM to the end of the table, then a blank line or notes';
  if (later >= 0)
    found.error('table-end', 'rows', `${quoted(ending)} with rows after it`, want, { line: end + 1 });
  else if (ending.trim() !== '' && !NOTE.test(ending))
    found.error('table-end', 'rows', quoted(ending), want, { line: end + 1 });
  else if (!lines.some((line, i) => i >= end && NOTE.test(line)))
    found.doubt(
      'table-end',
      'rows',
      'no notes after the table',
      'the notes that end such a file; it may be cut off',
      {
        line: end,
      },
    );
}
