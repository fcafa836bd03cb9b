/** The two things that a frontier weighs against each other; less of each is better. */
export interface Weighed {
  x: number;
  y: number;
}

/**
 * Those that no other beats: nothing has less of both, or as much of one and less of the other. Of equal ones the
 * first stays.
 * @returns their places, by rising x (and so by falling y)
 */
export function frontierOf(items: readonly Weighed[]): number[] {
  const order = items
    .map((_, i) => i)
    .sort((a, b) => items[a].x - items[b].x || items[a].y - items[b].y || a - b);
  const kept: number[] = [];
  let least = Number.POSITIVE_INFINITY;
  for (const i of order)
    if (items[i].y < least) {
      kept.push(i);
      least = items[i].y;
    }
  return kept;
}
