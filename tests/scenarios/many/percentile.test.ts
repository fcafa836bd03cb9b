import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bandOf, percentile } from '../../../src/scenarios/many/percentile.ts';

/** Definition 7 written as weights: every value counts by how near its place is to 1 + (n − 1)·p/100. */
function byWeights(values: readonly number[], percent: number): number {
  const place = 1 + ((values.length - 1) * percent) / 100;
  const inOrder = [...values].sort((a, b) => a - b);
  return inOrder.reduce((sum, value, i) => sum + value * Math.max(0, 1 - Math.abs(i + 1 - place)), 0);
}

describe('percentiles', () => {
  // numpy 2.4.6, numpy.percentile with its default rule, run for this test
  it('agree with a numerical library', () => {
    const values = [3.5, 1, 4, 1, 5, 9, 2, 6, 5, 3, 5.25].sort((a, b) => a - b);
    const got = [0, 10, 25, 50, 90, 95, 100].map((percent) => percentile(values, percent));
    expect(got).toEqual([1, 1, 2.5, 4, 6, 7.5, 9]);
    expect(bandOf([12.5, 7]).p10).toBeCloseTo(7.55, 12);
    expect(bandOf([12.5, 7]).p90).toBeCloseTo(11.95, 12);
  });

  it('agree with an independent form of the definition, in any order of the values', () => {
    const numbers = fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true }), {
      minLength: 1,
      maxLength: 60,
    });
    fc.assert(
      fc.property(numbers, (values) => {
        const { least, p10, p50, p90, most } = bandOf(values);
        expect(p10).toBeCloseTo(byWeights(values, 10), 6);
        expect(p50).toBeCloseTo(byWeights(values, 50), 6);
        expect(p90).toBeCloseTo(byWeights(values, 90), 6);
        expect([least, most]).toEqual([Math.min(...values), Math.max(...values)]);
        expect([least, p10, p50, p90, most]).toEqual([least, p10, p50, p90, most].sort((a, b) => a - b));
      }),
    );
  });
});
