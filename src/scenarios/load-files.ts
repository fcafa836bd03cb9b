import type { Cache } from './cache.ts';
import type { Issue, Place } from './issue.ts';
import { spreadPeaks } from './minute-peaks.ts';
import { readLoadFile } from './read-load.ts';
import { resample } from './resample.ts';
import type { DataSheet, ReadResult, Series, TimeAxis } from './series.ts';
import type { Path } from './site-document.ts';
import { coverIssue, tryRead } from './site-read.ts';
import type { LoadFile } from './site-schema.ts';

/** Reads the bytes of a file beside the site file; throws when there is none. */
export type ReadFile = (path: string) => Uint8Array;

/** What load is wanted for. */
export interface LoadRequest {
  phases: number;
  phaseV: number;
  axis: TimeAxis;
  siteZone: string;
  /** only files of this class; null: all */
  only: LoadFile['class'] | null;
}

/** Load per phase on the run's axis. */
export interface LoadSeries {
  phasesKw: Float64Array[];
  sheets: DataSheet[];
  issues: Issue[];
}

/**
 * Reads all load files of a site and adds them up by phase.
 * @param placeOf where a part of the site file stands
 * @param cache keeps what was read, for alternatives that only scale or shift it
 */
export function readLoads(
  files: readonly LoadFile[],
  request: LoadRequest,
  readFile: ReadFile,
  placeOf: (path: Path) => Place,
  cache: Cache,
): LoadSeries {
  const phasesKw = Array.from({ length: request.phases }, () => new Float64Array(request.axis.count));
  const sheets: DataSheet[] = [];
  const issues: Issue[] = [];
  for (const [i, load] of files.entries()) {
    if (request.only !== null && load.class !== request.only) continue;
    const { scale, shiftMin, peaks, phase, ...reading } = load;
    const { phaseV, siteZone } = request;
    const read = cache.once(['load file', i, reading, phaseV, siteZone], (): ReadResult => {
      const missing: Issue[] = [];
      const bytes = tryRead(load.file, ['load', i, 'file'], readFile, placeOf, missing);
      if (bytes === null) return { series: [], sheet: null, issues: missing };
      return readLoadFile(bytes, load, ['load', i], request, placeOf);
    });
    issues.push(...read.issues);
    if (read.sheet) sheets.push(read.sheet);
    for (const series of read.series) addLoad(phasesKw, series, load, request.axis, issues);
    if (read.sheet && read.sheet.axis.stepMin > COARSE_MIN && load.peaks === null)
      issues.push(coarseLoad(load.file, read.sheet.axis.stepMin));
  }
  return { phasesKw, sheets, issues };
}

/** Coarser loads hide the peaks that start a generator [min]. */
const COARSE_MIN = 15;

function addLoad(
  phasesKw: Float64Array[],
  series: Series,
  load: LoadFile,
  axis: TimeAxis,
  issues: Issue[],
): void {
  if (series.quantity !== 'loadKw') {
    issues.push(leftOut(series, load.file));
    return;
  }
  const issue = coverIssue(series, axis, load.file) ?? negativeIssue(series, load.file);
  if (issue) {
    issues.push(issue);
    return;
  }
  const { peaks } = load;
  const spread = peaks && series.axis.stepMin > 1 ? spreadSeries(series, peaks) : series;
  const kw = shifted(resample(spread.values, spread.axis, axis), load.shiftMin / axis.stepMin);
  const phase = load.columns?.[series.name] ?? load.phase;
  const share = load.scale / (phase === 'all' ? phasesKw.length : 1);
  for (const [k, total] of phasesKw.entries()) {
    if (phase !== 'all' && phase !== k + 1) continue;
    for (let i = 0; i < total.length; i++) total[i] += kw[i] * share;
  }
}

/** The series in minutes, its intervals' energy kept. */
function spreadSeries(series: Series, peaks: NonNullable<LoadFile['peaks']>): Series {
  const { stepMin, startS, count } = series.axis;
  const values = spreadPeaks(series.values, stepMin, 1, {
    peakedness: peaks.peakedness,
    pulseMin: peaks.pulseMin,
    baseFrac: peaks.baseShare,
    ceilingKw: peaks.ceilingKw ?? Number.POSITIVE_INFINITY,
    seed: `${peaks.seed} ${series.name}`,
  });
  return { ...series, axis: { startS, stepMin: 1, count: count * stepMin }, values };
}

/** Moved later by whole steps, round the period. */
export function shifted(values: Float64Array, steps: number): Float64Array {
  const by = ((Math.round(steps) % values.length) + values.length) % values.length;
  if (by === 0) return values;
  const moved = new Float64Array(values.length);
  moved.set(values.subarray(values.length - by));
  moved.set(values.subarray(0, values.length - by), by);
  return moved;
}

/** An issue when a series has values below 0; null when it has none. */
export function negativeIssue(series: Series, file: string): Issue | null {
  const count = series.values.reduce((sum, value) => sum + Number(value < 0), 0);
  if (count === 0) return null;
  const got = `${count} negative values`;
  const want = 'at least 0; what is generated is kept apart from load';
  return { severity: 'error', code: 'negative-load', path: series.name, got, want, at: { file } };
}

/** What a meter counted the other way is no load of the site. */
function leftOut(series: Series, file: string): Issue {
  const kwh = series.values.reduce((sum, kw) => sum + kw, 0) * (series.axis.stepMin / 60);
  return {
    severity: 'doubt',
    code: 'generation',
    path: series.name,
    got: `${kwh.toFixed(1)} kWh sent out`,
    want: 'load only; left out, so the load behind a meter with an array of its own is understated',
    at: { file },
  };
}

function coarseLoad(file: string, stepMin: number): Issue {
  return {
    severity: 'doubt',
    code: 'coarse-load',
    path: 'load',
    got: `load in steps of ${stepMin} min`,
    want: '15 min or finer: shorter peaks are hidden, so starts by peak and unserved energy are understated',
    at: { file },
  };
}
