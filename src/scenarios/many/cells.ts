import seedrandom from 'seedrandom';

/** How many cells a grid has. @param sizes values on each axis */
export function gridSize(sizes: readonly number[]): number {
  return sizes.reduce((product, size) => product * size, 1);
}

/** Every cell of a grid as places on its axes, the last axis quickest. */
export function allCells(sizes: readonly number[]): number[][] {
  return Array.from({ length: gridSize(sizes) }, (_, rank) => cellAt(rank, sizes));
}

/**
 * Some cells of a grid, spread evenly over it: points of a low-discrepancy sequence, shifted by a seed, each in the
 * cell that it falls into; a cell is taken once.
 * @param most how many
 * @returns in the order of the grid; all of it where it has no more
 * Source: J. H. Halton, Numerische Mathematik 2, 1960, pages 84 to 90; shift round the unit cube: R. Cranley and
 * T. N. L. Patterson, SIAM Journal on Numerical Analysis 13, 1976 (both from memory).
 */
export function spreadCells(sizes: readonly number[], most: number, seed: string): number[][] {
  const all = gridSize(sizes);
  if (most >= all) return allCells(sizes);
  const draw = seedrandom(seed);
  const shifts = sizes.map(() => draw());
  const ranks = new Set<number>();
  for (let i = 1; ranks.size < most; i++) {
    let rank = 0;
    for (const [axis, size] of sizes.entries()) {
      const at = (radicalInverse(i, PRIMES[axis]) + shifts[axis]) % 1;
      rank = rank * size + Math.min(size - 1, Math.floor(at * size));
    }
    ranks.add(rank);
    if (i >= MOST_DRAWS * most) break;
  }
  // the last few cells of a nearly full grid are drawn ever more seldom: the first ones not drawn make up for them
  for (let rank = 0; ranks.size < most; rank++) ranks.add(rank);
  return [...ranks].sort((a, b) => a - b).map((rank) => cellAt(rank, sizes));
}

/** A base for each axis; more axes than this are refused before. */
const PRIMES = [2, 3, 5, 7, 11, 13, 17, 19];
export const MOST_AXES = PRIMES.length;
const MOST_DRAWS = 50;

/**
 * The digits of a number in a base, mirrored at the point: 6 = 110 in base 2 gives 0.011 = 3/8.
 * @param n whole, >= 0
 * @returns 0 to below 1
 * Source: J. G. van der Corput, 1935 (from memory).
 */
export function radicalInverse(n: number, base: number): number {
  let value = 0;
  let weight = 1 / base;
  for (let left = n; left > 0; left = Math.floor(left / base)) {
    value += (left % base) * weight;
    weight /= base;
  }
  return value;
}

function cellAt(rank: number, sizes: readonly number[]): number[] {
  const cell = new Array<number>(sizes.length);
  let left = rank;
  for (let axis = sizes.length - 1; axis >= 0; axis--) {
    cell[axis] = left % sizes[axis];
    left = Math.floor(left / sizes[axis]);
  }
  return cell;
}
