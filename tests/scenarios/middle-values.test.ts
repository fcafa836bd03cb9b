import { describe, expect, it } from 'vitest';
import { medianOf, percentileOf, spreadOf, upperMedianOf } from '../../src/scenarios/middle-values.ts';
import { sumOfColumns } from '../../src/scenarios/sum-columns.ts';

describe('values in the middle', () => {
  it('are of those that are known', () => {
    expect(medianOf([4, Number.NaN, 1, 2, 10])).toBe(3);
    expect(percentileOf([4, 1, 2, 10, Number.NaN], 0)).toBe(1);
    expect(medianOf([Number.NaN])).toBeNaN();
  });

  it('are one that occurs, where that is asked for', () => {
    expect(upperMedianOf([10, 300, 600, 20])).toBe(300);
    expect(upperMedianOf([5, 1, 3])).toBe(3);
    expect(upperMedianOf([])).toBeNaN();
  });

  it('have a spread that one wild value does not widen', () => {
    expect(spreadOf([1, 2, 3, 4, 1000])).toBeCloseTo(1.4826, 9);
  });
});

it('columns are added step by step, and not known where one of them is not', () => {
  const sum = sumOfColumns([Float64Array.of(1, 2, Number.NaN), Float64Array.of(10, 20, 30)]);
  expect(Array.from(sum)).toEqual([11, 22, Number.NaN]);
});
