/** A value at which a function changes its sign. */
interface Root {
  at: number;
  /** the function there */
  gap: number;
  /** the function on either side of a jump over nothing; null: it comes to nothing within the tolerance */
  jump: { below: number; above: number } | null;
}

export interface RootRange {
  from: number;
  to: number;
  /** intervals of equal length that are looked at for a change of sign */
  intervals: number;
  /** the function is nothing when its size is at most this */
  tolerance: number;
  /** a sign that changes within this width jumps */
  width: number;
}

export interface FoundRoots {
  /** rising; two within one interval are missed, as is one that the function only touches */
  roots: Root[];
  /** the function at the ends of the intervals */
  samples: { at: number; value: number }[];
}

/**
 * Looks for the roots of a function in a range: it is sampled at equal distances, and each change of sign is closed
 * in by the secant rule of Illinois (Dowell and Jarratt, BIT 11:168, 1971, from memory), or by halving where that
 * goes too slowly, so that a function with jumps is closed in too.
 * @returns asks for the function's value at what it yields, which `next` is given; the roots at the end
 */
export function* findRoots(range: RootRange): Generator<number, FoundRoots, number> {
  const { from, to, intervals, tolerance } = range;
  const samples: FoundRoots['samples'] = [];
  for (let i = 0; i <= intervals; i++) {
    const at = i === intervals ? to : from + ((to - from) * i) / intervals;
    samples.push({ at, value: yield at });
  }
  const isNothing = (value: number) => Math.abs(value) <= tolerance;
  const roots: Root[] = [];
  for (const [i, sample] of samples.entries()) {
    const before = samples[i - 1];
    if (i > 0 && !isNothing(before.value) && !isNothing(sample.value) && before.value * sample.value < 0)
      roots.push(yield* closeIn(before, sample, range));
    if (isNothing(sample.value)) roots.push({ at: sample.at, gap: sample.value, jump: null });
  }
  return { roots, samples };
}

interface Point {
  at: number;
  value: number;
}

/** @param low @param high with values of different sign */
function* closeIn(low: Point, high: Point, range: RootRange): Generator<number, Root, number> {
  let [a, b] = [low, high];
  // values as the secant rule weighs them: an end that stays is halved
  let [weightA, weightB] = [a.value, b.value];
  let stayed = 0;
  let wide = b.at - a.at;
  let slow = 0;
  while (b.at - a.at > range.width) {
    const secant = (a.at * weightB - b.at * weightA) / (weightB - weightA);
    const inside = secant > a.at && secant < b.at;
    const at = slow >= 2 || !inside ? (a.at + b.at) / 2 : secant;
    if (at <= a.at || at >= b.at) break;
    const value = yield at;
    if (Math.abs(value) <= range.tolerance) return { at, gap: value, jump: null };
    if (value * a.value > 0) {
      a = { at, value };
      weightA = value;
      if (stayed === 1) weightB /= 2;
      else weightB = b.value;
      stayed = 1;
    } else {
      b = { at, value };
      weightB = value;
      if (stayed === -1) weightA /= 2;
      else weightA = a.value;
      stayed = -1;
    }
    slow = b.at - a.at > wide / 2 ? slow + 1 : 0;
    wide = b.at - a.at;
  }
  const nearer = Math.abs(a.value) <= Math.abs(b.value) ? a : b;
  return { at: nearer.at, gap: nearer.value, jump: { below: a.value, above: b.value } };
}
