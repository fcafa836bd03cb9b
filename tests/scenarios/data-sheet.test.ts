/** Data sheets of series with values that are not there. */
import { describe, expect, it } from 'vitest';
import { describeSheet, makeSheet } from '../../src/scenarios/data-sheet.ts';

const axis = { startS: Date.UTC(2025, 0, 1) / 1000, stepMin: 60, count: 4 };
const sheetOf = (values: number[]) =>
  describeSheet(
    makeSheet({
      ...{ file: 'a.csv', reader: 'csv', chosenBecause: 'named', timeZone: 'UTC', axis },
      series: [{ name: 'load kW', quantity: 'loadKw', axis, values: Float64Array.from(values) }],
      gaps: [{ startS: axis.startS, steps: 1, filledBy: null }],
    }),
  ).join('\n');

describe('a data sheet', () => {
  it('sums, and takes the mean of, the values that are there', () => {
    // 2 + 4 + 6 kWh in three hours, mean 4 of a peak of 6
    expect(sheetOf([2, Number.NaN, 4, 6])).toContain('load kW: 12.00 kWh, peak 6.000, load factor 0.67');
  });

  it('says where no value is there', () => {
    const nothing = [Number.NaN, Number.NaN, Number.NaN, Number.NaN];
    expect(sheetOf(nothing)).toContain('load kW: no values');
  });
});
