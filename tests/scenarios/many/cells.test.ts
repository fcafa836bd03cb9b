import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { allCells, gridSize, radicalInverse, spreadCells } from '../../../src/scenarios/many/cells.ts';

describe('radicalInverse', () => {
  it('is the sequence of van der Corput in base 2, and of Halton in base 3', () => {
    // Halton, Numerische Mathematik 2, 1960 (from memory); by hand: 6 = 110 in base 2, mirrored 0.011
    expect([1, 2, 3, 4, 5, 6, 7].map((n) => radicalInverse(n, 2))).toEqual([
      1 / 2,
      1 / 4,
      3 / 4,
      1 / 8,
      5 / 8,
      3 / 8,
      7 / 8,
    ]);
    const thirds = [1 / 3, 2 / 3, 1 / 9, 4 / 9, 7 / 9, 2 / 9, 5 / 9, 8 / 9, 1 / 27];
    for (const [i, value] of thirds.entries()) expect(radicalInverse(i + 1, 3)).toBeCloseTo(value, 14);
  });
});

describe('cells of a grid', () => {
  it('are all of them in order, the last axis quickest', () => {
    expect(allCells([2, 3])).toEqual([
      [0, 0],
      [0, 1],
      [0, 2],
      [1, 0],
      [1, 1],
      [1, 2],
    ]);
    expect(gridSize([4, 5, 6])).toBe(120);
  });

  it('of a sample are as many as asked for, each once, in order, the same for the same seed', () => {
    const sizes = fc.array(fc.integer({ min: 1, max: 12 }), { minLength: 1, maxLength: 5 });
    fc.assert(
      fc.property(sizes, fc.integer({ min: 1, max: 200 }), fc.string(), (axes, most, seed) => {
        const cells = spreadCells(axes, most, seed);
        expect(cells).toHaveLength(Math.min(most, gridSize(axes)));
        expect(spreadCells(axes, most, seed)).toEqual(cells);
        const ranks = cells.map((cell) => cell.reduce((rank, at, axis) => rank * axes[axis] + at, 0));
        for (const [i, rank] of ranks.entries()) if (i > 0) expect(rank).toBeGreaterThan(ranks[i - 1]);
        for (const cell of cells)
          for (const [axis, at] of cell.entries()) expect(at >= 0 && at < axes[axis]).toBe(true);
      }),
      { numRuns: 200 },
    );
  });

  it('of a sample are spread evenly: every tenth of each axis has about a tenth of them', () => {
    const cells = spreadCells([100, 100, 100], 500, 'even');
    for (const axis of [0, 1, 2]) {
      const tenths = new Array(10).fill(0);
      for (const cell of cells) tenths[Math.floor(cell[axis] / 10)]++;
      // 50 each; by plain chance a count this far off one side would be rare, ten of them within it too
      expect(Math.max(...tenths.map((count) => Math.abs(count - 50)))).toBeLessThanOrEqual(5);
    }
    expect(spreadCells([100, 100], 50, 'other')).not.toEqual(spreadCells([100, 100], 50, 'even'));
  });
});
