/**
 * Paths of all files that a site file names, in whatever part of it, alternatives included.
 * @param value the plain value of a site file, right or wrong
 */
export function namedFiles(value: unknown): string[] {
  const found = new Set<string>();
  collect(value, found, 0);
  return [...found];
}

/** Nothing in a site file is nested deeper than this. */
const DEEPEST = 40;

function collect(value: unknown, found: Set<string>, depth: number): void {
  if (typeof value !== 'object' || value === null || depth > DEEPEST) return;
  for (const [key, item] of Object.entries(value)) {
    const isFile = (key === 'file' || key.endsWith('.file')) && typeof item === 'string';
    if (isFile) found.add(item);
    // weather of other years may be named by file
    if (key === 'weatherYears' && Array.isArray(item))
      for (const year of item) if (typeof year === 'string') found.add(year);
    collect(item, found, depth + 1);
  }
}
