import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { SiteInFolder } from '../../scenarios/sites/site-jobs.ts';
import { besideSite } from './files.ts';

/**
 * Site files of a folder and of the folders in it, by their paths in it, in order: YAML or JSON with a `site` at its
 * top. What else lies there is not of interest.
 * Errors: throws where there is no such folder.
 */
export function sitesOfFolder(folder: string): SiteInFolder[] {
  const names = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.(ya?ml|json)$/i.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();
  return names.flatMap((path) => {
    const text = readFileSync(path, 'utf8');
    if (!/^\s*["']?site["']?\s*:/m.test(text)) return [];
    return [{ file: path.slice(folder.replace(/\/*$/, '/').length), text, readFile: besideSite(path) }];
  });
}
