import type { SiteChanges } from '../apply-changes.ts';

/** Groups of a site that name files. */
const WITH_FILES = /^(load|weather|sources)(\.|$)/;

/** Whether a variant reads files for itself: it changes something about the series that come from them. */
export function readsFiles(changes: SiteChanges): boolean {
  return Object.keys(changes).some((path) => WITH_FILES.test(path));
}

/** The files that variants name. */
export function namedFiles(variants: readonly SiteChanges[]): Set<string> {
  const paths = new Set<string>();
  for (const changes of variants)
    for (const [path, to] of Object.entries(changes))
      if (WITH_FILES.test(path)) addNamed(paths, path.endsWith('.file') ? { file: to } : to);
  return paths;
}

/** Adds every `file` within a value. */
function addNamed(paths: Set<string>, value: unknown): void {
  if (typeof value !== 'object' || value === null) return;
  for (const [key, part] of Object.entries(value))
    if (key === 'file' && typeof part === 'string') paths.add(part);
    else addNamed(paths, part);
}
