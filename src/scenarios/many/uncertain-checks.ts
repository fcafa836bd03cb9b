import { applyChanges } from '../apply-changes.ts';
import type { Issue } from '../issue.ts';
import type { Path, SiteDocument } from '../site-document.ts';
import { readSite, type SiteParts } from '../site-file.ts';
import { isFactor } from './uncertain.ts';

/** Whether both ends of every uncertain value make a site without problems; each problem at the end that has it. */
export function uncertainIssues(document: SiteDocument, parts: SiteParts): Issue[] {
  const listed = parts.uncertain ?? [];
  const known = readSite(document).issues;
  return listed.flatMap(({ path, low, high }, i) => {
    const at: Path = ['uncertain', i];
    const tell = (end: 'low' | 'high' | 'path', got: string, want: string): Issue => {
      const place: Path = [...at, end];
      return {
        ...{ severity: 'error', code: 'uncertain', path: place.join('.') },
        ...{ got, want, at: document.placeOf(place) },
      };
    };
    if (low >= high) return [tell('high', `${high}`, `above the lowest, ${low}`)];
    if (isFactor(path))
      return low > 0 ? [] : [tell('low', `${low} times`, 'above 0: all of it is multiplied')];
    const ends = (['low', 'high'] as const).flatMap((end): Issue[] => {
      const value = end === 'low' ? low : high;
      const applied = applyChanges({ [path]: value }, at, document, parts);
      if (applied.issues.length > 0) return applied.issues.map(({ got, want }) => tell('path', got, want));
      if (typeof (applied.made[0].from ?? 0) !== 'number')
        return [tell('path', `'${path}', which is no number`, 'the path of a number')];
      return readSite(document, applied.value)
        .issues.filter(({ severity }) => severity === 'error')
        .filter((issue) => !known.some((other) => other.path === issue.path && other.got === issue.got))
        .map(({ got, want }) => tell(end, got, want));
    });
    // a path that is wrong is wrong for both ends
    return ends.filter((issue, k) => ends.findIndex((other) => other.path === issue.path) === k);
  });
}
