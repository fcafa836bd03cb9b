import type { Issue } from './issue.ts';
import type { ReadResult } from './series.ts';
import { TYPICAL_HOURS, textLines, typicalYearSeries, weatherIssue, within } from './typical-year.ts';

/** Header cells by what they measure, and the range of believable values. */
const COLUMNS = {
  ghiWPerM2: ['GHI (W/m^2)', 0, 1500],
  dniWPerM2: ['DNI (W/m^2)', 0, 1500],
  dhiWPerM2: ['DHI (W/m^2)', 0, 1000],
  airC: ['Dry-bulb (C)', -70, 70],
  windMPerS: ['Wspd (m/s)', 0, 100],
} as const;

type Column = keyof typeof COLUMNS;

/**
 * Reads a TMY3 weather year.
 * Format: Wilcox and Marion, Users Manual for TMY3 Data Sets, NREL/TP-581-43156, 2008: a line of station data,
 * a header, 8760 hours stamped 01:00 to 24:00 in local standard time; -9900 is missing. Columns by name, for
 * later files have more of them. 29 February is dropped.
 */
export function readTmy3(bytes: Uint8Array, file: string): ReadResult {
  const lines = textLines(bytes);
  const issues: Issue[] = [];
  const station = (lines[0] ?? '').split(',');
  const [utcOffsetH, latDeg, lonDeg, elevationM] = station.slice(-4).map(Number);
  if (station.length < 7 || [utcOffsetH, latDeg, lonDeg, elevationM].some(Number.isNaN))
    issues.push(
      weatherIssue(file, 1, 'station', lines[0] ?? '', 'code, name, state, UTC offset, lat, lon, elevation'),
    );
  const header = (lines[1] ?? '').split(',');
  const names = Object.keys(COLUMNS) as Column[];
  const hours = Object.fromEntries(
    names.map((name) => [name, new Float64Array(TYPICAL_HOURS).fill(Number.NaN)]),
  ) as Record<Column, Float64Array>;
  for (const name of names)
    if (!header.includes(COLUMNS[name][0]))
      issues.push(weatherIssue(file, 2, name, 'no such column', `a column '${COLUMNS[name][0]}'`));
  const places = names.map((name) => header.indexOf(COLUMNS[name][0]));
  let hour = 0;
  for (let i = 2; i < lines.length && issues.length < 50; i++) {
    if (lines[i] === '') continue;
    const cells = lines[i].split(',');
    if (cells[0].startsWith('02/29')) continue;
    if (!/^\d\d\/\d\d\/\d{4}$/.test(cells[0]) || cells.length !== header.length)
      issues.push(
        weatherIssue(file, i + 1, 'row', `${cells.length} cells`, `MM/DD/YYYY and ${header.length} cells`),
      );
    for (const [j, name] of names.entries()) {
      const [, least, most] = COLUMNS[name];
      const cell = cells[places[j]];
      if (hour < TYPICAL_HOURS && cell) hours[name][hour] = within(Number(cell), least, most);
    }
    hour++;
  }
  if (hour !== TYPICAL_HOURS)
    issues.push(
      weatherIssue(
        file,
        lines.length,
        'rows',
        `${hour} hours`,
        `${TYPICAL_HOURS}, a year without 29 February`,
      ),
    );
  const location = { latDeg, lonDeg, utcOffsetH, elevationM };
  const chosenBecause = 'second line is a TMY3 header';
  return typicalYearSeries({ file, reader: 'tmy3', chosenBecause, location, hours, issues });
}
