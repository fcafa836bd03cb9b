import { Findings, quoted } from './findings.ts';
import { readPvgisHours } from './pvgis-hours.ts';
import { type PvgisFile, pvgisPlace, ROW } from './pvgis-table.ts';
import { readPvgisTypical } from './pvgis-typical.ts';
import type { ReadResult } from './series.ts';
import { MAX_GAP_MIN, refused, type WeatherOptions } from './typical-year.ts';
import { cellsOf, firstLines, textLines } from './weather-text.ts';

/** Why these bytes look like a PVGIS file; null when they do not. */
export function looksLikePvgis(head: Uint8Array): string | null {
  return firstLines(head)[0].startsWith('Latitude (decimal degrees):')
    ? 'first line is Latitude (decimal degrees):'
    : null;
}

/**
 * Reads either kind of PVGIS CSV: hours of many years on a plane, or a typical year.
 * Format: PVGIS 5 user manual and real files (seen); all times are UTC.
 * Errors: an issue list, with line and column of each problem; then no series.
 */
export function readPvgis(bytes: Uint8Array, file: string, options: WeatherOptions = {}): ReadResult {
  const found = new Findings(file);
  const lines = textLines(bytes, found);
  if (found.hasErrors) return refused(found);
  const header = lines.findIndex((line) => /^time(\(UTC\))?,/.test(line));
  if (header < 0) {
    const want = 'a table below a line that begins with time, or time(UTC),';
    found.error('header', 'header', quoted(lines[0] ?? ''), want, { line: 1 });
    return refused(found);
  }
  const early = lines.findIndex((line, i) => i < header && ROW.test(line));
  if (early >= 0)
    found.error('header', 'rows', quoted(lines[early]), 'rows below the header only', { line: early + 1 });
  const names = cellsOf(lines[header]).map((name) => name.trim());
  for (const name of new Set(names))
    if (names.indexOf(name) !== names.lastIndexOf(name))
      found.error('header', quoted(name), 'two such columns', 'names of their own', { line: header + 1 });
  const place = pvgisPlace(lines, header, found);
  const maxGapMin = options.maxGapMin ?? MAX_GAP_MIN;
  const opened: PvgisFile = { file, lines, header, names, place, maxGapMin };
  return names[0] === 'time(UTC)' ? readPvgisTypical(opened, found) : readPvgisHours(opened, found);
}
