import { readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { partFileName, partNamedIn, type WorkPart } from '../../scenarios/many/work-part.ts';

/** A file that a part of some work has left. */
export interface PartFile {
  part: WorkPart;
  text: string;
}

/** Files of the parts of a kept file, in any of some folders, in the order of their names; a folder may be missing. */
export function partFiles(keptFile: string, folders: readonly string[]): PartFile[] {
  return folders.flatMap((folder) =>
    namesIn(folder).flatMap((name) => {
      const part = partNamedIn(name, basename(keptFile));
      return part ? [{ part, text: readFileSync(join(folder, name), 'utf8') }] : [];
    }),
  );
}

function namesIn(folder: string): string[] {
  try {
    return readdirSync(folder).sort();
  } catch {
    return [];
  }
}

/** Where finished work is kept: a part has a file of its own. */
export function keptPath(out: string, name: string, part: WorkPart | undefined): string {
  return join(out, part ? partFileName(name, part) : name);
}

/** What is said when a part is finished. */
export function partSentence({ part, of }: WorkPart, done: string, file: string): string {
  return `Part ${part} of ${of} is finished: ${done}, in ${file}. When all parts are: the same command with --merge and their folders.\n`;
}
