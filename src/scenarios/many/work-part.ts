import type { Issue } from '../issue.ts';

/** One of several parts of the same work. */
export interface WorkPart {
  /** from 1 */
  part: number;
  of: number;
}

/** Reads '3/16'; null where it is none. */
export function readPart(text: string): WorkPart | null {
  const [, part, of] = /^(\d+)\/(\d+)$/.exec(text)?.map(Number) ?? [];
  return part >= 1 && part <= of ? { part, of } : null;
}

/** What belongs to a part: every n-th of n parts, so that all parts have about the same to do. */
export function shareOfPart<T>(all: readonly T[], { part, of }: WorkPart): T[] {
  return all.filter((_, i) => i % of === part - 1);
}

/** The name of a file for a part: 'kept.jsonl' becomes 'kept.part-3-of-16.jsonl'. */
export function partFileName(file: string, { part, of }: WorkPart): string {
  return file.replace(/(\.\w+)$/, `.part-${part}-of-${of}$1`);
}

/** Which part of a file's work another file is; null where it is none of it. */
export function partNamedIn(name: string, file: string): WorkPart | null {
  const [, part, of] = /\.part-(\d+)-of-(\d+)\.\w+$/.exec(name)?.map(Number) ?? [];
  return part && of && partFileName(file, { part, of }) === name ? { part, of } : null;
}

/**
 * What is missing where parts are put together: each part that is not there or not finished.
 * @param has whether it was found in any part
 * @param found the parts of which there was a file, of whatever inputs
 * @param things what the work consists of, 'variants'
 */
export function missingParts<T>(
  all: readonly T[],
  has: (one: T) => boolean,
  found: readonly WorkPart[],
  things: string,
  folders: readonly string[],
): Issue[] {
  if (all.every(has)) return [];
  const at = { file: folders.join(', ') };
  const issue = (got: string, want: string): Issue => ({
    ...{ severity: 'error', code: 'missing-part', path: '--merge', got, want, at },
  });
  const of = mostFrequent(found.map((one) => one.of));
  if (of === null) return [issue('no part of this work', 'parts made by the same command with --shard')];
  return Array.from({ length: of }, (_, i) => ({ part: i + 1, of })).flatMap((wantedPart) => {
    const wanted = shareOfPart(all, wantedPart);
    const there = wanted.filter(has).length;
    if (there === wanted.length) return [];
    const isFile = found.some((one) => one.part === wantedPart.part && one.of === of);
    const got =
      there > 0
        ? `${there} of ${wanted.length} ${things} of part ${wantedPart.part}`
        : `${isFile ? 'nothing in' : 'no'} part ${wantedPart.part}`;
    const of0 = isFile && there === 0 ? ', of the same inputs and by the same version' : '';
    return [issue(got, `what --shard ${wantedPart.part}/${of} makes${of0}`)];
  });
}

function mostFrequent(numbers: readonly number[]): number | null {
  const counts = new Map<number, number>();
  for (const number of numbers) counts.set(number, (counts.get(number) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1] || a[0] - b[0])[0]?.[0] ?? null;
}
