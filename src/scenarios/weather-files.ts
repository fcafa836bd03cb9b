import type { Issue, Place } from './issue.ts';
import { negativeIssue, type ReadFile } from './load-files.ts';
import { type CsvColumn, readCsv } from './read-csv.ts';
import { readEpw } from './read-epw.ts';
import { readPvgis } from './read-pvgis.ts';
import { readTmy3 } from './read-tmy3.ts';
import { layTypicalYear, resample } from './resample.ts';
import type { DataSheet, Quantity, ReadResult, Series, TimeAxis } from './series.ts';
import type { Path } from './site-document.ts';
import { coverIssue, tryRead } from './site-read.ts';
import type { WeatherFile } from './site-schema.ts';
import { syntheticYears, withinHours } from './synthetic-weather.ts';

/** Weather on the run's axis. */
export interface Weather {
  /** null where only the plane of the arrays was measured */
  globalWPerM2: Float64Array | null;
  directWPerM2: Float64Array | null;
  diffuseWPerM2: Float64Array | null;
  airC: Float64Array;
  /** wind, fresh snow and precipitation; null where not known */
  windMPerS: Float64Array | null;
  snowCmPerH: Float64Array | null;
  precipMmPerH: Float64Array | null;
  /** irradiance measured on a plane; azimuth clockwise from north */
  plane: { tiltDeg: number; azimuthDeg: number; wPerM2: Float64Array } | null;
}

export interface WeatherResult {
  weather: Weather | null;
  sheets: DataSheet[];
  issues: Issue[];
}

/** The place that weather is wanted for. */
export interface SitePlace {
  latDeg: number;
  lonDeg: number;
  timeZone: string;
}

/**
 * Reads the weather of a site and lays it on the run's axis; hourly means are kept, finer steps repeat them.
 * @param placeOf where a part of the site file stands
 */
export function readWeather(
  file: WeatherFile,
  axis: TimeAxis,
  place: SitePlace,
  readFile: ReadFile,
  placeOf: (path: Path) => Place,
): WeatherResult {
  const issues: Issue[] = [];
  if (file.format === 'monthly') return { weather: monthlyWeather(file, axis, place), sheets: [], issues };
  const bytes = tryRead(file.file, ['weather', 'file'], readFile, placeOf, issues);
  if (bytes === null) return { weather: null, sheets: [], issues };
  const read = readWeatherFile(file, bytes, place.timeZone);
  issues.push(...read.issues);
  const sheets = read.sheet ? [read.sheet] : [];
  for (const series of read.series)
    if (series.quantity === 'snowCmPerH' || series.quantity === 'precipMmPerH') {
      const below = negativeIssue(series, file.file);
      if (below) issues.push({ ...below, code: 'negative', want: 'at least 0' });
    }
  if (read.series.length === 0) return { weather: null, sheets, issues };
  const isTypical = file.format === 'csv' ? file.typicalYear : read.plane === undefined;
  const of = (quantity: Quantity): Float64Array | null => {
    const series = read.series.find((one) => one.quantity === quantity);
    if (!series) return null;
    return isTypical ? layTypical(series, axis, file.file, issues) : lay(series, axis, file.file, issues);
  };
  const globalWPerM2 = of('ghiWPerM2');
  const onPlane = of('poaWPerM2');
  const airC = of('airC');
  if (airC === null && issues.length === 0) issues.push(noAir(file.file));
  if (airC === null || (globalWPerM2 ?? onPlane) === null) return { weather: null, sheets, issues };
  const measured = file.format === 'csv' ? file.planeOfArray : read.plane;
  const plane = onPlane && measured ? { ...planeOf(measured), wPerM2: onPlane } : null;
  const [directWPerM2, diffuseWPerM2] = [of('dniWPerM2'), of('dhiWPerM2')];
  const [windMPerS, snowCmPerH, precipMmPerH] = [of('windMPerS'), of('snowCmPerH'), of('precipMmPerH')];
  const sky = { globalWPerM2, directWPerM2, diffuseWPerM2, plane };
  return { weather: { ...sky, airC, windMPerS, snowCmPerH, precipMmPerH }, sheets, issues };
}

function planeOf({ tiltDeg, azimuthDeg }: { tiltDeg: number; azimuthDeg: number }) {
  return { tiltDeg, azimuthDeg };
}

type FileWeather = Exclude<WeatherFile, { format: 'monthly' }>;

function readWeatherFile(file: FileWeather, bytes: Uint8Array, siteZone: string): ReadResult {
  if (file.format === 'tmy3') return readTmy3(bytes, file.file);
  if (file.format === 'epw') return readEpw(bytes, file.file, { precipitation: file.precipitation });
  if (file.format === 'pvgis') return readPvgis(bytes, file.file);
  const columns: CsvColumn[] = [{ column: file.air, quantity: 'airC', unit: 'C' }];
  const wanted = [
    [file.global, 'ghiWPerM2'],
    [file.direct, 'dniWPerM2'],
    [file.diffuse, 'dhiWPerM2'],
    [file.planeOfArray?.column, 'poaWPerM2'],
  ] as const;
  for (const [column, quantity] of wanted) if (column) columns.push({ column, quantity, unit: 'W/m2' });
  if (file.wind) columns.push({ column: file.wind, quantity: 'windMPerS', unit: 'm/s' });
  if (file.snowfall) columns.push({ column: file.snowfall, quantity: 'snowCmPerH', unit: 'cm' });
  if (file.precipitation) columns.push({ column: file.precipitation, quantity: 'precipMmPerH', unit: 'mm' });
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
  place: SitePlace,
): Weather {
  const years = Math.ceil((axis.count * axis.stepMin) / (365 * 1440)) + 1;
  const climate = { ...file, latDeg: place.latDeg };
  const made = syntheticYears(climate, years, file.seed);
  const solarOffsetS = Math.round(place.lonDeg * 4) * 60;
  const onAxis = (values: Float64Array, stepMin = 60) => layTypicalYear(values, stepMin, solarOffsetS, axis);
  // clouds pass in minutes, but a step of a minute is as fine as five for a battery and costs five times as much
  const fineMin = Math.max(5, axis.stepMin);
  const global = fineMin < 60 ? withinHours(climate, made, fineMin, file.seed) : made.globalWPerM2;
  return {
    globalWPerM2: onAxis(global, fineMin),
    directWPerM2: null,
    diffuseWPerM2: null,
    airC: onAxis(made.airC),
    windMPerS: null,
    snowCmPerH: null,
    precipMmPerH: null,
    plane: null,
  };
}

function lay(series: Series, axis: TimeAxis, file: string, issues: Issue[]): Float64Array {
  const short = coverIssue(series, axis, file);
  if (short) issues.push(short);
  return resample(series.values, series.axis, axis);
}

/** Clocks are at most this far from UTC [s]. */
const MOST_OFFSET_S = 14 * 3600;

/** Lays a typical year, whose standard time is told by where its first of January begins. */
function layTypical(series: Series, axis: TimeAxis, file: string, issues: Issue[]): Float64Array | null {
  const { startS, stepMin, count } = series.axis;
  const year = new Date((startS + 182 * 86400) * 1000).getUTCFullYear();
  const offsetS = Date.UTC(year, 0, 1) / 1000 - startS;
  if (Math.abs(offsetS) > MOST_OFFSET_S || count * stepMin !== 365 * 1440) {
    const from = new Date(startS * 1000).toISOString().slice(0, 16);
    const got = `${count} steps of ${stepMin} min from ${from} UTC`;
    const want = 'a typical year of 365 days from 1 January, 00:00, in standard time';
    issues.push({
      severity: 'error',
      code: 'typical-year',
      path: series.name,
      got,
      want,
      at: { file },
    });
    return null;
  }
  return layTypicalYear(series.values, stepMin, offsetS, axis);
}

function noAir(file: string): Issue {
  const want = 'a weather file with the temperature of the air';
  return {
    severity: 'error',
    code: 'weather-file',
    path: 'air',
    got: 'no air temperature',
    want,
    at: { file },
  };
}
