import type { Cache } from './cache.ts';
import type { Issue, Place } from './issue.ts';
import { type LoadRequest, negativeIssue, type ReadFile, shifted } from './load-files.ts';
import { readLoadFile } from './read-load.ts';
import { resample } from './resample.ts';
import type { DataSheet, ReadResult, Series, TimeAxis } from './series.ts';
import type { Path } from './site-document.ts';
import { coverIssue, tryRead } from './site-read.ts';
import type { SourceFile } from './site-schema.ts';

/** What the other sources could give, one series each on the run's axis. */
export interface SourceSeries {
  kw: Float64Array[];
  sheets: DataSheet[];
  issues: Issue[];
}

/**
 * Reads the other sources of a site, by the readers of loads. Of a meter file the channel that counts what was sent
 * out is taken, of a CSV file the columns named.
 * @param placeOf where a part of the site file stands
 */
export function readSources(
  sources: readonly SourceFile[],
  request: LoadRequest,
  readFile: ReadFile,
  placeOf: (path: Path) => Place,
  cache: Cache,
): SourceSeries {
  const found: SourceSeries = { kw: [], sheets: [], issues: [] };
  for (const [i, source] of sources.entries()) {
    const path: Path = ['sources', i];
    const {
      name: _name,
      coupling: _coupling,
      phase: _phase,
      scale: _scale,
      shiftMin: _shift,
      ...reading
    } = source;
    const read = cache.once(['source file', i, reading, request.phaseV, request.siteZone], (): ReadResult => {
      const missing: Issue[] = [];
      const bytes = tryRead(source.file, [...path, 'file'], readFile, placeOf, missing);
      if (bytes === null) return { series: [], sheet: null, issues: missing };
      const columns =
        source.columns && Object.fromEntries(source.columns.map((column) => [column, 'all' as const]));
      return readLoadFile(bytes, { ...source, columns, phase: 'all', peaks: null }, path, request, placeOf);
    });
    found.issues.push(...read.issues);
    if (read.sheet) found.sheets.push(read.sheet);
    const kw = new Float64Array(request.axis.count);
    const isMeter = read.sheet !== null && read.sheet.reader !== 'csv';
    const wanted = read.series.filter(({ quantity }) => (quantity === 'generationKw') === isMeter);
    if (read.series.length > 0 && wanted.length === 0)
      found.issues.push(noGeneration(source, placeOf([...path, 'file'])));
    for (const series of wanted) addSource(kw, series, source, request.axis, found.issues);
    found.kw.push(kw);
  }
  return found;
}

function addSource(
  total: Float64Array,
  series: Series,
  source: SourceFile,
  axis: TimeAxis,
  issues: Issue[],
): void {
  const issue = coverIssue(series, axis, source.file) ?? negativeIssue(series, source.file);
  if (issue) {
    issues.push(issue);
    return;
  }
  const kw = shifted(resample(series.values, series.axis, axis), source.shiftMin / axis.stepMin);
  for (let i = 0; i < total.length; i++) total[i] += kw[i] * source.scale;
}

function noGeneration({ file, name }: SourceFile, at: Place): Issue {
  return {
    severity: 'error',
    code: 'no-generation',
    path: `sources.${name}`,
    got: `a meter file '${file}' that counts only what was drawn`,
    want: 'a meter that counts what was sent out, or a CSV file of the power',
    at,
  };
}
