import { readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { type Shard, shardFile, shardIn } from '../../scenarios/many/shard.ts';

/** A file that a part of some work has left. */
export interface PartFile {
  shard: Shard;
  text: string;
}

/** Files of the parts of a kept file, in any of some folders, in the order of their names; a folder may be missing. */
export function partFiles(keptFile: string, folders: readonly string[]): PartFile[] {
  return folders.flatMap((folder) =>
    namesIn(folder).flatMap((name) => {
      const shard = shardIn(name, basename(keptFile));
      return shard ? [{ shard, text: readFileSync(join(folder, name), 'utf8') }] : [];
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
export function keptPath(out: string, name: string, shard: Shard | undefined): string {
  return join(out, shard ? shardFile(name, shard) : name);
}

/** What is said when a part is finished. */
export function partSentence({ part, of }: Shard, done: string, file: string): string {
  return `Part ${part} of ${of} is finished: ${done}, in ${file}. When all parts are: the same command with --merge and their folders.\n`;
}
