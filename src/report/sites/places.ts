import type { SiteRank } from '../../scenarios/visit/site-rank.ts';

/**
 * Folders of the sites' own pages beside the list, by their files: each without the ending, or with it where that of
 * another site would be the same.
 */
export function visitPlaces(ranks: readonly Pick<SiteRank, 'file'>[]): Map<string, string> {
  const bare = (file: string) => file.replace(/\.\w+$/, '');
  const times = new Map<string, number>();
  // file systems that take capitals and small letters for the same
  const key = (file: string) => bare(file).toLowerCase();
  for (const { file } of ranks) times.set(key(file), (times.get(key(file)) ?? 0) + 1);
  return new Map(ranks.map(({ file }) => [file, times.get(key(file)) === 1 ? bare(file) : file]));
}

/** The address of the page in such a folder, as the list has it. */
export function visitLink(place: string): string {
  const parts = place.split(/[\\/]/).map(encodeURIComponent);
  return [...parts, 'visit.html'].join('/');
}
