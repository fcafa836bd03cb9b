import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import type { SiteInFolder } from '../../scenarios/sites/site-jobs.ts';
import { besideSite } from './files.ts';

/** A line, or the first brace of a JSON file, with the key `site`. */
const SITE_KEY = /^\s*\{?\s*["']?site["']?\s*:/m;

/**
 * Site files of a folder and of the folders in it, by their paths in it, in order: YAML or JSON with a `site` in
 * it. What else lies there is not of interest.
 * @returns null where there is no such folder, or it is none
 */
export function sitesOfFolder(folder: string): SiteInFolder[] | null {
  return (
    filesIn(folder)?.flatMap((path) => {
      const text = readFileSync(path, 'utf8');
      return SITE_KEY.test(text) ? [{ file: relative(folder, path), text, readFile: besideSite(path) }] : [];
    }) ?? null
  );
}

function filesIn(folder: string): string[] | null {
  try {
    return readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && /\.(ya?ml|json)$/i.test(entry.name))
      .map((entry) => join(entry.parentPath, entry.name))
      .sort();
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'ENOENT' || code === 'ENOTDIR') return null;
    throw error;
  }
}
