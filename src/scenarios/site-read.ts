import type { Issue, Place } from './issue.ts';
import type { ReadFile } from './load-files.ts';
import type { Series, TimeAxis } from './series.ts';
import type { Path } from './site-document.ts';

/** The bytes of a file, or an issue at the place that names it. */
export function tryRead(
  file: string,
  path: Path,
  readFile: ReadFile,
  placeOf: (path: Path) => Place,
  issues: Issue[],
): Uint8Array | null {
  try {
    return readFile(file);
  } catch {
    issues.push({
      severity: 'error',
      code: 'no-file',
      path: path.join('.'),
      got: `no file '${file}'`,
      want: 'a file that is there, by its path beside the site file',
      at: placeOf(path),
    });
    return null;
  }
}

/** An issue when a series does not cover the period; null when it does. */
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
