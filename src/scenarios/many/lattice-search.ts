import { byScore, type Score } from './score.ts';
import { spreadPoints } from './spread-points.ts';

/** A choice of one value for every setting, each by its place in the setting's list. */
export type Point = readonly number[];

/** What is searched. */
export interface Space {
  /** number of values of each setting */
  lengths: readonly number[];
  /** settings that belong together (start and stop) and are also moved in step */
  pairs: readonly (readonly [number, number])[];
  /** false for points that contradict themselves; they are never tried */
  isAllowed: (point: Point) => boolean;
}

export interface Tried {
  point: Point;
  score: Score;
}

/** Scores points, each once, until so many have been; further ones are not tried. */
export class Tries {
  private readonly known = new Map<string, Score>();

  constructor(
    private readonly evaluate: (points: readonly Point[]) => Promise<Score[]>,
    readonly most: number,
  ) {}

  /** how many have been evaluated */
  get runs(): number {
    return this.known.size;
  }

  /** Those of the points that are scored, in order, without repeats. */
  async of(points: readonly Point[]): Promise<Tried[]> {
    const different = new Map(points.map((point) => [point.join(), point]));
    const fresh = [...different].filter(([key]) => !this.known.has(key)).slice(0, this.most - this.runs);
    const scores = fresh.length > 0 ? await this.evaluate(fresh.map(([, point]) => point)) : [];
    for (const [i, [key]] of fresh.entries()) this.known.set(key, scores[i]);
    return [...different].flatMap(([key, point]) => {
      const score = this.known.get(key);
      return score ? [{ point, score }] : [];
    });
  }
}

/** Points spread over the whole space, without those that are not allowed; fewer than asked where it is small. */
export function spreadOver({ lengths, isAllowed }: Space, count: number): Point[] {
  const points = new Map<string, Point>();
  // half of them may be refused; a small space repeats itself
  for (const place of spreadPoints(lengths.length, 4 * count)) {
    const point = place.map((share, i) => Math.floor(share * lengths[i]));
    if (points.size < count && isAllowed(point)) points.set(point.join(), point);
  }
  return [...points.values()];
}

/** The best, no two of them nearer to each other than a quarter of some setting's values. */
export function bestApart(tried: readonly Tried[], { lengths }: Space, count: number): Tried[] {
  const chosen: Tried[] = [];
  const isApart = (a: Point, b: Point) => a.some((at, i) => Math.abs(at - b[i]) > lengths[i] / 4);
  for (const one of [...tried].sort((a, b) => byScore(a.score, b.score)))
    if (chosen.length < count && chosen.every((other) => isApart(one.point, other.point))) chosen.push(one);
  return chosen;
}

/** A first stride is this share of a setting's values. */
const FIRST_STRIDE = 1 / 6;

/**
 * Goes downhill from a point: every setting a stride up and down, pairs in step, and all that helped at once; where
 * nothing helps, strides are halved, down to neighbours.
 * Source: Hooke and Jeeves, "Direct search", Journal of the ACM 8, 1961 (from memory).
 */
export async function descend(from: Tried, space: Space, tries: Tries): Promise<Tried> {
  let best = from;
  let strides = space.lengths.map((length) => Math.max(1, Math.round(length * FIRST_STRIDE)));
  for (;;) {
    const near = await tries.of(neighbours(best.point, strides, space));
    const both = allThatHelped(best, near).filter((point) => isInside(point, space));
    const found = bestOf([best, ...near, ...(await tries.of(both))]);
    if (found !== best) best = found;
    else if (strides.every((stride) => stride === 1)) return best;
    else strides = strides.map((stride) => Math.max(1, Math.floor(stride / 2)));
    if (tries.runs >= tries.most) return best;
  }
}

/** The best of some; of equals the first. */
export function bestOf(tried: readonly Tried[]): Tried {
  return tried.reduce((best, one) => (byScore(one.score, best.score) < 0 ? one : best));
}

function neighbours(at: Point, strides: readonly number[], space: Space): Point[] {
  const moves = [...at.map((_, i) => [i]), ...space.pairs.map((pair) => [...pair])].flatMap((moved) =>
    [1, -1].map((sign) => at.map((place, i) => place + (moved.includes(i) ? sign * strides[i] : 0))),
  );
  return moves.filter((point) => isInside(point, space));
}

/** Every setting moved by itself as it helped most; nothing where fewer than two did. */
function allThatHelped(best: Tried, near: readonly Tried[]): Point[] {
  const point = [...best.point];
  const helped = near
    .filter(({ score }) => byScore(score, best.score) < 0)
    .sort((a, b) => byScore(b.score, a.score));
  const moved = new Set<number>();
  // the best is set last
  for (const one of helped) {
    const changed = one.point.flatMap((place, i) => (place === best.point[i] ? [] : [i]));
    if (changed.length !== 1) continue;
    point[changed[0]] = one.point[changed[0]];
    moved.add(changed[0]);
  }
  return moved.size > 1 ? [point] : [];
}

function isInside(point: Point, { lengths, isAllowed }: Space): boolean {
  return point.every((place, i) => place >= 0 && place < lengths[i]) && isAllowed(point);
}
