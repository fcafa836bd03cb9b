import { type SunPath, sunPath } from '../sim/sky/plane.ts';
import { NOMINAL_YEAR } from './common-year.ts';
import { Findings } from './findings.ts';
import type { Issue } from './issue.ts';
import { layTypicalYear, resample } from './resample.ts';
import type { ReadResult, Series, TimeAxis } from './series.ts';
import type { WeatherQuantity } from './weather-cells.ts';
import { shapeWithin } from './within-step.ts';

/** How weather is laid on an axis. */
export interface LayOptions {
  /**
   * Finer steps than the file's: 'flat' repeats the mean (default); 'sun' follows the sun's height (global and
   * diffuse) or the sunlit part (direct, plane of the array). Both keep the mean of every step of the file.
   */
  within?: 'flat' | 'sun';
  /** laid on any calendar year; default: as the reader of the file knows */
  typicalYear?: boolean;
}

/** Weather on an axis; null where the file has none. */
export interface WeatherOnAxis extends Record<WeatherQuantity, Float64Array | null> {
  axis: TimeAxis;
  plane: { tiltDeg: number; azimuthDeg: number } | null;
  /** how it was laid, in words */
  laid: string;
}

/**
 * Weather of a file on the axis of a simulation. Coarser steps take the mean, finer ones keep the mean of every
 * step of the file; a typical year is repeated over all calendar years, 28 February again on 29 February.
 * Errors: an issue list where the file has problems or does not cover the axis (up to half a step at its ends is
 * held on, with a doubt); then no weather.
 * @param read what a reader of weather gave, with its own issues
 */
export function weatherOnAxis(
  read: ReadResult,
  to: TimeAxis,
  options: LayOptions = {},
): { weather: WeatherOnAxis | null; issues: Issue[] } {
  const found = new Findings(read.sheet?.file ?? 'weather');
  if (read.series.length === 0) {
    if (read.issues.length === 0) found.error('weather-file', 'weather', 'no series', 'a file with weather');
    return { weather: null, issues: found.issues };
  }
  const isTypical = options.typicalYear ?? knownAsTypical(read);
  const sun = options.within === 'sun' ? readPlace(read, found) : null;
  const ways = { isTypical, sun };
  const weather: WeatherOnAxis = {
    axis: to,
    ghiWPerM2: null,
    dniWPerM2: null,
    dhiWPerM2: null,
    poaWPerM2: null,
    airC: null,
    windMPerS: null,
    precipMmPerH: null,
    snowCmPerH: null,
    snowDepthCm: null,
    plane: read.plane ?? null,
    laid: laidWords(isTypical, sun !== null),
  };
  for (const series of read.series)
    if (isWeather(series.quantity)) weather[series.quantity] = onAxis(series, to, ways, found);
  return { weather: found.hasErrors ? null : weather, issues: found.issues };
}

/** EPW and TMY3 files are typical years, and PVGIS files that are not for a plane. */
function knownAsTypical(read: ReadResult): boolean {
  const reader = read.sheet?.reader;
  return reader === 'epw' || reader === 'tmy3' || (reader === 'pvgis' && !read.plane);
}

interface Place {
  latDeg: number;
  lonDeg: number;
}

function readPlace(read: ReadResult, found: Findings): Place | null {
  if (!read.location)
    found.error('place', 'location', 'no latitude and longitude', 'a place, to follow the sun within steps');
  return read.location ?? null;
}

function isWeather(quantity: Series['quantity']): quantity is WeatherQuantity {
  return quantity !== 'loadKw' && quantity !== 'generationKw';
}

function laidWords(isTypical: boolean, bySun: boolean): string {
  const years = isTypical ? 'a typical year repeated over the calendar years' : 'hours of the calendar';
  const within = bySun
    ? "irradiance within a step of the file follows the sun's height"
    : 'finer steps repeat the mean';
  return `${years}; ${within}`;
}

function onAxis(
  series: Series,
  to: TimeAxis,
  { isTypical, sun }: { isTypical: boolean; sun: Place | null },
  found: Findings,
): Float64Array | null {
  const source = isTypical ? checkedYear(series, found) : coverEnds(series, to, found);
  if (source === null) return null;
  const lay = (axis: TimeAxis) =>
    isTypical
      ? layTypicalYear(source.values, source.axis.stepMin, offsetOf(source.axis), axis)
      : resample(source.values, source.axis, axis);
  const isIrradiance = series.quantity.endsWith('WPerM2');
  const per = series.axis.stepMin / to.stepMin;
  const shift = (to.startS - series.axis.startS) / (to.stepMin * 60);
  // steps that straddle those of the file cannot be shaped
  if (sun === null || !isIrradiance || per < 2 || !Number.isInteger(per) || !Number.isInteger(shift))
    return lay(to);
  // whole steps of the file, so that those that the axis cuts keep their shape
  const before = ((shift % per) + per) % per;
  const whole: TimeAxis = {
    startS: to.startS - before * to.stepMin * 60,
    stepMin: to.stepMin,
    count: Math.ceil((before + to.count) / per) * per,
  };
  const path = sunPath(whole.startS, whole.stepMin, whole.count, sun.latDeg, sun.lonDeg);
  const shaped = shapeWithin(lay(whole), per, weightsOf(series, path), path.extraNormal);
  return shaped.slice(before, before + to.count);
}

/** Global and diffuse irradiance rise with the sun; the direct beam and a plane's light are there while it is up. */
function weightsOf({ quantity }: Series, { cosZenith, sunlit }: SunPath): Float64Array {
  if (quantity === 'dniWPerM2' || quantity === 'poaWPerM2') return sunlit;
  return cosZenith.map((cosine, i) => cosine * sunlit[i]);
}

/** Standard time less UTC [s], told by where the typical year's first of January begins. */
function offsetOf({ startS }: TimeAxis): number {
  const year = new Date((startS + 182 * 86400) * 1000).getUTCFullYear();
  return Date.UTC(year, 0, 1) / 1000 - startS;
}

/** Clocks are at most this far from UTC [s]. */
const MOST_OFFSET_S = 14 * 3600;

function checkedYear(series: Series, found: Findings): Series | null {
  const { startS, stepMin, count } = series.axis;
  if (count * stepMin === 365 * 1440 && Math.abs(offsetOf(series.axis)) <= MOST_OFFSET_S) return series;
  const got = `${count} steps of ${stepMin} min from ${utcWords(startS)}`;
  const want = `365 days from 1 January 00:00 in standard time, as in ${NOMINAL_YEAR}`;
  found.error('typical-year', series.name, got, want);
  return null;
}

/** The series with its first and last value held on for up to half a step, where the axis needs that. */
function coverEnds(series: Series, to: TimeAxis, found: Findings): Series | null {
  const { axis, values } = series;
  const stepS = axis.stepMin * 60;
  const early = axis.startS - to.startS;
  const late = endS(to) - endS(axis);
  if (early <= 0 && late <= 0) return series;
  const got = `values from ${utcWords(axis.startS)} to ${utcWords(endS(axis))}`;
  const want = `the whole period, ${utcWords(to.startS)} to ${utcWords(endS(to))}`;
  if (early > stepS / 2 || late > stepS / 2) {
    found.error('too-short', series.name, got, want);
    return null;
  }
  found.doubt('held-on', series.name, got, `${want}; the value at the end is held on`);
  const padded = new Float64Array(values.length + 2);
  padded.set(values, 1);
  padded[0] = values[0];
  padded[padded.length - 1] = values[values.length - 1];
  return { ...series, axis: { ...axis, startS: axis.startS - stepS, count: axis.count + 2 }, values: padded };
}

function endS({ startS, stepMin, count }: TimeAxis): number {
  return startS + count * stepMin * 60;
}

function utcWords(atS: number): string {
  return `${new Date(atS * 1000).toISOString().slice(0, 16)}Z`;
}
