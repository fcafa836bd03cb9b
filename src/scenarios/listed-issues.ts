import type { Issue } from './issue.ts';

/** As many of one kind are listed; the rest are counted. */
export const MOST_LISTED = 50;

/**
 * Issues with one more that says how many of their kind there are besides.
 * @param listed the first of them
 * @param all    how many there are
 */
export function withRest(listed: readonly Issue[], all: number): Issue[] {
  const last = listed.at(-1);
  if (last === undefined || all <= listed.length) return [...listed];
  const more = all - listed.length;
  return [
    ...listed,
    {
      severity: last.severity,
      code: 'more',
      path: last.path,
      got: `${more} more like the ${listed.length} listed`,
      want: 'none of them',
      at: { file: last.at.file },
    },
  ];
}
