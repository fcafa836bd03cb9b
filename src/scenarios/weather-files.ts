import type { Issue } from './issue.ts';
import { coverIssue, type ReadFile, tryRead } from './load-files.ts';
import { type CsvColumn, readCsv } from './read-csv.ts';
import { readEpw } from './read-epw.ts';
import { readTmy3 } from './read-tmy3.ts';
import { layTypicalYear, resample } from './resample.ts';
import type { DataSheet, Quantity, ReadResult, TimeAxis } from './series.ts';
import type { WeatherFile } from './site-schema.ts';
import { syntheticYears } from './synthetic-weather.ts';

/** Weather on the run's axis. */
interface Weather {
  globalWPerM2: Float64Array;
  directWPerM2: Float64Array | null;
  diffuseWPerM2: Float64Array | null;
  airC: Float64Array;
}

export interface WeatherResult {
  weather: Weather | null;
  sheets: DataSheet[];
  issues: Issue[];
}

/** The place that weather is wanted for. */
export interface Place {
  latDeg: number;
  lonDeg: number;
  timeZone: string;
}

/** Reads the weather of a site and lays it on the run's axis; hourly means are kept, finer steps repeat them. */
export function readWeather(
  file: WeatherFile,
  axis: TimeAxis,
  place: Place,
  readFile: ReadFile,
): WeatherResult {
  const issues: Issue[] = [];
  if (file.format === 'monthly') return { weather: monthlyWeather(file, axis, place), sheets: [], issues };
  const bytes = tryRead(file.file, readFile, issues);
  if (bytes === null) return { weather: null, sheets: [], issues };
  const read = readWeatherFile(file, bytes, place.timeZone);
  issues.push(...read.issues);
  const sheets = read.sheet ? [read.sheet] : [];
  if (read.series.length === 0) return { weather: null, sheets, issues };
  const typical = file.format !== 'csv' || file.typicalYear;
  const of = (quantity: Quantity): Float64Array | null => {
    const series = read.series.find((one) => one.quantity === quantity);
    if (!series) return null;
    if (!typical) {
      const short = coverIssue(series, axis, file.file);
      if (short) issues.push(short);
      return resample(series.values, series.axis, axis);
    }
    const whole = typicalIssue(series.values.length, series.axis.stepMin, file.file);
    if (whole) {
      issues.push(whole);
      return null;
    }
    return layTypicalYear(series.values, series.axis.stepMin, standardOffsetS(series.axis.startS), axis);
  };
  const globalWPerM2 = of('ghiWPerM2');
  const airC = of('airC');
  if (!globalWPerM2 || !airC) return { weather: null, sheets, issues };
  const weather = { globalWPerM2, directWPerM2: of('dniWPerM2'), diffuseWPerM2: of('dhiWPerM2'), airC };
  return { weather, sheets, issues };
}

type FileWeather = Exclude<WeatherFile, { format: 'monthly' }>;

function readWeatherFile(file: FileWeather, bytes: Uint8Array, siteZone: string): ReadResult {
  if (file.format === 'tmy3') return readTmy3(bytes, file.file);
  if (file.format === 'epw') return readEpw(bytes, file.file);
  const columns: CsvColumn[] = [
    { column: file.global, quantity: 'ghiWPerM2', unit: 'W/m2' },
    { column: file.air, quantity: 'airC', unit: 'C' },
  ];
  if (file.direct) columns.push({ column: file.direct, quantity: 'dniWPerM2', unit: 'W/m2' });
  if (file.diffuse) columns.push({ column: file.diffuse, quantity: 'dhiWPerM2', unit: 'W/m2' });
  if (file.wind) columns.push({ column: file.wind, quantity: 'windMPerS', unit: 'm/s' });
  const { timeColumns, stamp, dateOrder, decimalComma, maxGapMin } = file;
  const timeZone = file.timeZone ?? siteZone;
  return readCsv(bytes, file.file, {
    columns,
    timeColumns,
    stamp,
    timeZone,
    dateOrder,
    decimalComma,
    maxGapMin,
  });
}

/** Years made from monthly means, a new one for every calendar year; their hours are of mean solar time. */
function monthlyWeather(
  file: Extract<WeatherFile, { format: 'monthly' }>,
  axis: TimeAxis,
  place: Place,
): Weather {
  const years = Math.ceil((axis.count * axis.stepMin) / (365 * 1440)) + 1;
  const made = syntheticYears({ ...file, latDeg: place.latDeg }, years, file.seed);
  const solarOffsetS = Math.round(place.lonDeg * 4) * 60;
  const lay = (values: Float64Array) => layTypicalYear(values, 60, solarOffsetS, axis);
  return {
    globalWPerM2: lay(made.globalWPerM2),
    directWPerM2: null,
    diffuseWPerM2: null,
    airC: lay(made.airC),
  };
}

/** Standard time less UTC of a typical year that begins at local midnight [s]. */
function standardOffsetS(startS: number): number {
  const sinceMidnight = ((startS % 86400) + 86400) % 86400;
  return sinceMidnight > 43200 ? 86400 - sinceMidnight : -sinceMidnight;
}

function typicalIssue(count: number, stepMin: number, file: string): Issue | null {
  if (count * stepMin === 365 * 1440) return null;
  const got = `${count} steps of ${stepMin} min`;
  const want = 'a typical year of 365 days from 1 January, 00:00, in standard time';
  return { severity: 'error', code: 'typical-year', path: 'weather', got, want, at: { file } };
}
