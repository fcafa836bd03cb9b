import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { areaPath, linePath, perPixel } from '../../src/report/charts/per-pixel.ts';

describe('a series on the columns of a drawing', () => {
  it('keeps a one-minute spike of a year', () => {
    const year = new Float64Array(525_600).fill(1);
    year[300_000] = 24;
    const { highest, lowest } = perPixel(year, 0, year.length, 700);
    expect(Math.max(...highest)).toBe(24);
    expect(highest.filter((value) => value === 24)).toHaveLength(1);
    expect(Math.min(...lowest)).toBe(1);
  });

  it('has first, lowest, highest, last and mean of each column', () => {
    const { first, lowest, highest, last, mean } = perPixel([3, 1, 2, 6, 8, 7], 0, 6, 2);
    expect([...first, ...lowest, ...highest, ...last, ...mean]).toEqual([3, 6, 1, 6, 3, 8, 2, 7, 2, 7]);
  });

  it('lets a step cover several columns where there are fewer steps', () => {
    expect([...perPixel([1, 2], 0, 2, 4).mean]).toEqual([1, 1, 2, 2]);
  });

  it('misses no step: extremes are those of the span', () => {
    const values = fc.array(fc.double({ min: -50, max: 50, noNaN: true }), { minLength: 1, maxLength: 400 });
    fc.assert(
      fc.property(values, fc.integer({ min: 1, max: 120 }), (list, columns) => {
        const { lowest, highest } = perPixel(list, 0, list.length, columns);
        expect(Math.min(...lowest)).toBe(Math.min(...list));
        expect(Math.max(...highest)).toBe(Math.max(...list));
      }),
      { numRuns: 300 },
    );
  });
});

describe('a path over columns', () => {
  const yOf = (value: number) => 10 - value;

  it('joins columns of equal height', () => {
    expect(areaPath(0, 10, Float64Array.of(2, 2, 5), yOf)).toBe('M0 10V8h2V5h1V10z');
    expect(linePath(0, Float64Array.of(2, 2, 5), yOf)).toBe('M0 8h2V5h1');
  });
});
