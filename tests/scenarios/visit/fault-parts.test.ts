import { describe, expect, it } from 'vitest';
import { spreadOf } from '../../../src/scenarios/middle-values.ts';
import { findStep } from '../../../src/scenarios/visit/faults/find-step.ts';
import { leastSquares, withoutMeans } from '../../../src/scenarios/visit/faults/least-squares.ts';

/** A value that wavers by `by` from day to day, without chance. */
const wavering = (count: number, value: (day: number) => number, by = 0.02) =>
  Array.from({ length: count }, (_, day) => value(day) + by * ((day * 7) % 5) - 2 * by);

describe('a step in a row of days', () => {
  it('is found on its day, with days missing', () => {
    const days = wavering(60, (day) => (day < 33 ? 1 : 0.8));
    days[5] = Number.NaN;
    days[40] = Number.NaN;
    const step = findStep(days, 7);
    expect(step?.at).toBe(33);
    expect(step?.before).toBeCloseTo(1, 9);
    expect(step?.after).toBeCloseTo(0.8, 9);
  });

  it('is none where a value falls slowly, goes back, or only wavers', () => {
    expect(
      findStep(
        wavering(60, (day) => 1 - 0.01 * day),
        7,
      ),
    ).toBeNull();
    expect(
      findStep(
        wavering(60, (day) => (day >= 20 && day < 45 ? 0.7 : 1)),
        7,
      ),
    ).toBeNull();
    expect(
      findStep(
        wavering(60, () => 1),
        7,
      ),
    ).toBeNull();
  });

  it('is none with too few days on a side', () => {
    expect(
      findStep(
        wavering(60, (day) => (day < 55 ? 1 : 0.5)),
        7,
      )?.at ?? 0,
    ).not.toBe(55);
    expect(
      findStep(
        wavering(12, (day) => (day < 6 ? 1 : 0.5)),
        7,
      ),
    ).toBeNull();
  });
});

describe('least squares without a constant', () => {
  it('gives the certified values of a reference data set', () => {
    // NIST Statistical Reference Datasets, NoInt1: slope 2.07438016528926, deviation 0.0165289256198347 (from memory)
    const x = Array.from({ length: 11 }, (_, i) => 60 + i);
    const y = Array.from({ length: 11 }, (_, i) => 130 + i);
    const fit = leastSquares([x], y);
    expect(fit?.coefficients[0]).toBeCloseTo(2.07438016528926, 12);
    expect(fit?.errors[0]).toBeCloseTo(0.0165289256198347, 12);
  });

  it('tells two variables apart, and refuses two that are one', () => {
    const [a, b] = [
      [1, 2, 3, 4, 7],
      [1, -1, 2, 0, 1],
    ];
    const y = a.map((value, i) => 3 * value - 2 * b[i]);
    const fit = leastSquares([a, b], y);
    expect(fit?.coefficients[0]).toBeCloseTo(3, 9);
    expect(fit?.coefficients[1]).toBeCloseTo(-2, 9);
    expect(leastSquares([a, a.map((value) => 2 * value)], y)).toBeNull();
  });

  it('takes each group’s own mean away', () => {
    expect(withoutMeans([1, 3, 10, 20], [0, 0, 1, 1])).toEqual([-1, 1, -5, 5]);
  });
});

describe('the spread of values', () => {
  it('is that of a normal deviation, whatever a few outliers are', () => {
    // the median distance of a normal variate from its median is 0.6745 deviations
    expect(spreadOf([-0.6745, 0.6745, -0.6745, 0.6745, 0, 1000])).toBeCloseTo(1, 2);
  });
});
