import type { SiteRank } from '../visit/site-rank.ts';

/** A visit that was finished, by the name of its work: other inputs or another version have another. */
interface Kept {
  id: string;
  rank: SiteRank;
}

/** Finished visits from the lines of a file; a line that was cut off when the run was stopped is left out. */
export function keptVisits(text: string): Map<string, SiteRank> {
  const kept = new Map<string, SiteRank>();
  for (const line of text.split('\n')) {
    const one = line === '' ? null : read(line);
    if (one) kept.set(one.id, one.rank);
  }
  return kept;
}

function read(line: string): Kept | null {
  try {
    const { id, rank } = JSON.parse(line) as Partial<Kept>;
    return typeof id === 'string' && rank?.file !== undefined ? { id, rank } : null;
  } catch {
    return null;
  }
}

export function visitLine(id: string, rank: SiteRank): string {
  return `${JSON.stringify({ id, rank } satisfies Kept)}\n`;
}
