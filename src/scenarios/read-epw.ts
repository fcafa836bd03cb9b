import type { Issue } from './issue.ts';
import type { ReadResult } from './series.ts';
import { TYPICAL_HOURS, textLines, typicalYearSeries, weatherIssue, within } from './typical-year.ts';

const HEADER_LINES = 8;
const CELLS = 35;

/**
 * Reads an EPW weather year.
 * Format: EnergyPlus weather data dictionary as transcribed in public code (second hand): eight header lines, then
 * 35 columns an hour; radiation is the sum over the hour ending at the stamp, temperature is at the stamp, all in
 * local standard time. Missing: 9999 for irradiance, 99.9 for temperature, 999 for wind. 29 February is dropped;
 * more than one record an hour is averaged.
 */
export function readEpw(bytes: Uint8Array, file: string): ReadResult {
  const lines = textLines(bytes);
  const issues: Issue[] = [];
  const place = (lines[0] ?? '').split(',');
  const [latDeg, lonDeg, utcOffsetH, elevationM] = place.slice(6, 10).map(Number);
  if (place[0] !== 'LOCATION' || [latDeg, lonDeg, utcOffsetH, elevationM].some(Number.isNaN))
    issues.push(
      weatherIssue(
        file,
        1,
        'LOCATION',
        lines[0] ?? '',
        'LOCATION, six names, lat, lon, UTC offset, elevation',
      ),
    );
  const periods = (lines[HEADER_LINES - 1] ?? '').split(',');
  const perHour = Number(periods[2]);
  if (periods[0] !== 'DATA PERIODS' || !(perHour >= 1 && perHour <= 60))
    issues.push(
      weatherIssue(
        file,
        HEADER_LINES,
        'DATA PERIODS',
        lines[HEADER_LINES - 1] ?? '',
        'records per hour, 1 to 60',
      ),
    );
  const column = () => new Float64Array(TYPICAL_HOURS).fill(Number.NaN);
  const hours = {
    ghiWPerM2: column(),
    dniWPerM2: column(),
    dhiWPerM2: column(),
    airC: column(),
    windMPerS: column(),
  };
  let record = 0;
  for (let i = HEADER_LINES; i < lines.length && issues.length < 50; i++) {
    if (lines[i] === '') continue;
    const cells = lines[i].split(',');
    if (Number(cells[1]) === 2 && Number(cells[2]) === 29) continue;
    if (cells.length < CELLS - 3)
      issues.push(weatherIssue(file, i + 1, 'row', `${cells.length} cells`, `${CELLS} cells`));
    const hour = Math.floor(record / perHour);
    const last = record % perHour === perHour - 1;
    if (hour < TYPICAL_HOURS) {
      addMean(hours.ghiWPerM2, hour, within(Number(cells[13]), 0, 1500), perHour, record);
      addMean(hours.dniWPerM2, hour, within(Number(cells[14]), 0, 1500), perHour, record);
      addMean(hours.dhiWPerM2, hour, within(Number(cells[15]), 0, 1000), perHour, record);
      if (last) hours.airC[hour] = within(Number(cells[6]), -70, 70);
      if (last) hours.windMPerS[hour] = within(Number(cells[21]), 0, 100);
    }
    record++;
  }
  if (record !== TYPICAL_HOURS * perHour)
    issues.push(
      weatherIssue(
        file,
        lines.length,
        'rows',
        `${record} records`,
        `${TYPICAL_HOURS * perHour}, a year without 29 February`,
      ),
    );
  const location = { latDeg, lonDeg, utcOffsetH, elevationM };
  const chosenBecause = 'first line begins with LOCATION';
  return typicalYearSeries({ file, reader: 'epw', chosenBecause, location, hours, issues });
}

/** Adds a record's share to its hour's mean; a missing record makes the hour missing. */
function addMean(values: Float64Array, hour: number, value: number, perHour: number, record: number): void {
  const share = value / perHour;
  values[hour] = record % perHour === 0 ? share : values[hour] + share;
}
