import type { Issue } from './issue.ts';
import { spreadPeaks } from './minute-peaks.ts';
import { readCsv } from './read-csv.ts';
import { resample } from './resample.ts';
import type { DataSheet, Series, TimeAxis } from './series.ts';
import type { LoadFile } from './site-schema.ts';

/** Reads the bytes of a file beside the site file; throws when there is none. */
export type ReadFile = (path: string) => Uint8Array;

/** Load per phase on the run's axis. */
export interface LoadSeries {
  phasesKw: Float64Array[];
  sheets: DataSheet[];
  issues: Issue[];
}

/** Reads all load files of a site and adds them up by phase. */
export function readLoads(
  files: readonly LoadFile[],
  phases: number,
  axis: TimeAxis,
  siteZone: string,
  phaseV: number,
  readFile: ReadFile,
): LoadSeries {
  const phasesKw = Array.from({ length: phases }, () => new Float64Array(axis.count));
  const sheets: DataSheet[] = [];
  const issues: Issue[] = [];
  for (const load of files) {
    const bytes = tryRead(load.file, readFile, issues);
    if (bytes === null) continue;
    const columns = Object.keys(load.columns).map((column) => ({
      column,
      quantity: 'loadKw' as const,
      unit: load.unit,
    }));
    const { timeColumns, dateOrder, decimalComma, maxGapMin, powerFactor } = load;
    // a register's row is an instant: its interval begins there
    const stamp = load.unit === 'kWh register' ? 'start' : load.stamp;
    const timeZone = load.timeZone ?? siteZone;
    const options = {
      columns,
      timeColumns,
      stamp,
      timeZone,
      dateOrder,
      decimalComma,
      maxGapMin,
      powerFactor,
      phaseV,
    };
    const read = readCsv(bytes, load.file, options);
    issues.push(...read.issues);
    if (read.sheet) sheets.push(read.sheet);
    for (const series of read.series) addLoad(phasesKw, series, load, axis, issues);
    const coarse = read.sheet && read.sheet.axis.stepMin > 15 && load.peaks === null;
    if (coarse) issues.push(coarseLoad(load.file, read.sheet?.axis.stepMin ?? 0));
  }
  return { phasesKw, sheets, issues };
}

function addLoad(
  phasesKw: Float64Array[],
  series: Series,
  load: LoadFile,
  axis: TimeAxis,
  issues: Issue[],
): void {
  const issue = coverIssue(series, axis, load.file) ?? negativeIssue(series, load.file);
  if (issue) {
    issues.push(issue);
    return;
  }
  const { peaks } = load;
  const spread = peaks && series.axis.stepMin > 1 ? spreadSeries(series, peaks) : series;
  const kw = shifted(resample(spread.values, spread.axis, axis), load.shiftMin / axis.stepMin);
  const phase = load.columns[series.name];
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
function shifted(values: Float64Array, steps: number): Float64Array {
  const by = ((Math.round(steps) % values.length) + values.length) % values.length;
  if (by === 0) return values;
  const moved = new Float64Array(values.length);
  moved.set(values.subarray(values.length - by));
  moved.set(values.subarray(0, values.length - by), by);
  return moved;
}

/** An issue when a series does not cover the period. */
export function coverIssue(series: Series, axis: TimeAxis, file: string): Issue | null {
  const endS = (a: TimeAxis) => a.startS + a.count * a.stepMin * 60;
  if (series.axis.startS <= axis.startS && endS(series.axis) >= endS(axis)) return null;
  const iso = (s: number) => new Date(s * 1000).toISOString().slice(0, 16);
  return {
    severity: 'error',
    code: 'too-short',
    path: series.name,
    got: `values from ${iso(series.axis.startS)} to ${iso(endS(series.axis))} UTC`,
    want: `the whole period, ${iso(axis.startS)} to ${iso(endS(axis))} UTC`,
    at: { file },
  };
}

function negativeIssue(series: Series, file: string): Issue | null {
  const count = series.values.reduce((sum, value) => sum + Number(value < 0), 0);
  if (count === 0) return null;
  const got = `${count} negative values`;
  const want = 'a load of at least 0; what is generated is kept apart';
  return { severity: 'error', code: 'negative-load', path: series.name, got, want, at: { file } };
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

/** The bytes of a file, or an issue. */
export function tryRead(path: string, readFile: ReadFile, issues: Issue[]): Uint8Array | null {
  try {
    return readFile(path);
  } catch {
    const want = 'a file that is there, by its path beside the site file';
    issues.push({
      severity: 'error',
      code: 'no-file',
      path: 'file',
      got: `no file '${path}'`,
      want,
      at: { file: path },
    });
    return null;
  }
}
