/** The built command line, as its user meets it. `npm test` builds it first. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { SMALL_SITE, smallSiteFile } from '../scenarios/small-site.ts';
import { CLI, inFolder } from './built-cli.ts';

export { CLI, inFolder };

/** A fresh folder with these files in it. Errors: throws where nothing was built. */
export function folderWith(files: Record<string, string | Uint8Array>): string {
  if (!existsSync(CLI)) throw new Error('dist/cli.js is missing: run `npm run build` (npm test does)');
  const folder = mkdtempSync(join(tmpdir(), 'darkweek-'));
  for (const [name, content] of Object.entries(files)) writeFileSync(join(folder, name), content);
  return folder;
}

/** The small site and all that it names. */
export const smallSiteFolder = (): string =>
  folderWith({
    'site.yaml': SMALL_SITE,
    'load.csv': smallSiteFile('load.csv'),
    'sky.csv': smallSiteFile('sky.csv'),
  });

/** Runs a command to its end. */
export const runIn = (folder: string, ...args: string[]) =>
  spawnSync(process.execPath, [CLI, ...args], inFolder(folder));
