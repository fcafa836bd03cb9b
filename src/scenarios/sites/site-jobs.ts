import { parse } from 'yaml';
import type { ReadFile } from '../load-files.ts';
import { namedFiles } from '../named-files.ts';
import { type Job, SITE_TEXT } from '../queue/job.ts';

/** A site file of a folder. */
export interface SiteInFolder {
  /** its path in the folder */
  file: string;
  text: string;
  /** reads what it names; throws where there is none */
  readFile: ReadFile;
}

/**
 * A job that visits a site by its log, with all files that the site names. Its files are read when they are asked for,
 * and not kept: many sites have more than a machine holds at a time.
 */
export function visitJob(
  { file, text, readFile }: SiteInFolder,
  version: string,
  retunes: boolean,
): Job<'visit'> {
  const names = namesIn(text);
  const absent = names.filter((name) => !isThere(readFile, name));
  const present = names.filter((name) => !absent.includes(name));
  return {
    kind: 'visit',
    version,
    payload: { file, absent, retunes },
    get files() {
      const read = present.map((name): [string, Uint8Array] => [name, readFile(name)]);
      return { ...Object.fromEntries(read), [SITE_TEXT]: new TextEncoder().encode(text) };
    },
  };
}

/** Files that a site file names; none where it cannot be parsed, which its visit will say. */
function namesIn(text: string): string[] {
  try {
    return namedFiles(parse(text));
  } catch {
    return [];
  }
}

function isThere(readFile: ReadFile, name: string): boolean {
  try {
    readFile(name);
    return true;
  } catch {
    return false;
  }
}
