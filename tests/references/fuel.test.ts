import { describe, expect, it } from 'vitest';
import { fuelRateLPerH, fuelStretches } from '../../src/sim/fuel.ts';

function rateOf(kw: readonly number[], lPerH: readonly number[]): (load: number) => number {
  const { breaks, lines } = fuelStretches(kw, lPerH);
  return (load) => fuelRateLPerH(load, breaks[0], breaks[1], ...lines);
}

describe('fuel line', () => {
  // Skarstein and Uhlen, Wind Engineering 13(2), 1989: 0.246 L/kWh and b L/h per rated kW; the attribution is
  // from memory, b = 0.08145 and 0.08415 were both seen in print. Values derived for a 40 kW set.
  it.each([
    [0.08145, [5.718, 8.178, 10.638, 13.098]],
    [0.08415, [5.826, 8.286, 10.746, 13.206]],
  ])('with b = %d gives the published line', (b, expected) => {
    const rate = rateOf([0, 40], [b * 40, b * 40 + 0.246 * 40]);
    const got = [10, 20, 30, 40].map(rate);
    for (const [i, litres] of expected.entries()) expect(got[i]).toBeCloseTo(litres, 9);
  });

  // A widely reproduced handbook chart of makers' averages, 100 kW set: 9.8, 15.5, 22.0, 28.0 L/h at quarter
  // loads (seen on several pages; approximate).
  it('through the four points of the handbook chart meets them and interpolates between', () => {
    const rate = rateOf([25, 50, 75, 100], [9.8, 15.52, 21.96, 28.0]);
    expect(rate(25)).toBeCloseTo(9.8, 9);
    expect(rate(100)).toBeCloseTo(28.0, 9);
    // point-by-point interpolation at 60 kW, derived: 18.10 L/h
    expect(rate(60)).toBeCloseTo(18.1, 2);
    // below the first point its stretch is carried on: 9.8 − 25 · (15.52 − 9.8)/25
    expect(rate(0)).toBeCloseTo(4.08, 9);
  });

  // least-squares lines through each row of the same chart (derived); the chart is a band of ±15 %
  it.each([
    [20, 0.2574, 0.946, [2.3, 3.4, 4.9, 6.1]],
    [30, 0.2725, 2.839, [4.9, 6.8, 9.1, 11.0]],
    [60, 0.2498, 3.218, [6.8, 11.0, 14.4, 18.2]],
    [100, 0.2438, 3.596, [9.8, 15.5, 22.0, 28.0]],
  ])('fitted to the %d kW row stays within the chart band', (rated, slope, intercept, chart) => {
    const rate = rateOf([0, rated], [intercept, intercept + slope * rated]);
    for (const [i, litres] of chart.entries()) {
      const ratio = rate((rated * (i + 1)) / 4) / litres;
      expect(ratio).toBeGreaterThan(0.85);
      expect(ratio).toBeLessThan(1.15);
    }
  });

  it('never falls below nothing', () => {
    expect(rateOf([50, 100], [1, 10])(0)).toBe(0);
  });
});
