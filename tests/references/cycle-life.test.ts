import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  cycleLifeByPoints,
  cycleLifeByPower,
  cyclesToFailure,
  lifeFactorByTemperature,
  minerSum,
} from '../../src/sim/wear/cycle-life.ts';
import { addCycle, makeCycleList } from '../../src/sim/wear/cycle-list.ts';
import { rainflowInto } from '../../src/sim/wear/rainflow.ts';

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('cycle life', () => {
  // N(d) = N1·d^−b with N1 3000 and b 1.2 (the form from memory, the values derived)
  const law = cycleLifeByPower(3000, 1.2);
  it.each([
    [1, 3000, 1e-9],
    [0.8, 3921.148, 5e-4],
    [0.5, 6892.19, 5e-4],
    [0.4, 9008.43, 5e-3],
  ])('at depth %d is %d cycles', (depth, expected, tolerance) => {
    expect(Math.abs(cyclesToFailure(law, depth) - expected)).toBeLessThan(tolerance);
  });

  it('has no end at depth 0', () => expect(cyclesToFailure(law, 0)).toBe(Number.POSITIVE_INFINITY));

  it('equals Math.pow', () => {
    fc.assert(
      fc.property(between(1e-6, 1.2), between(0, 3), (depth, b) => {
        const expected = 3000 * depth ** -b;
        expect(Math.abs(cyclesToFailure(cycleLifeByPower(3000, b), depth) / expected - 1)).toBeLessThan(
          1e-13,
        );
      }),
    );
  });

  it("goes through a table's points, straight in logarithms between and beyond", () => {
    const table = cycleLifeByPoints([0.1, 0.4, 1], [40_000, 10_000, 1_000]);
    expect(cyclesToFailure(table, 0.1)).toBeCloseTo(40_000, 6);
    expect(cyclesToFailure(table, 0.4)).toBeCloseTo(10_000, 7);
    expect(cyclesToFailure(table, 1)).toBeCloseTo(1_000, 8);
    // 0.1 to 0.4 falls to a quarter at four times the depth: slope −1; halfway, at the geometric mean 0.2, 20 000
    expect(cyclesToFailure(table, 0.2)).toBeCloseTo(20_000, 6);
    // carried on with slope −1 to a tenth of the depth: ten times the cycles
    expect(cyclesToFailure(table, 0.01)).toBeCloseTo(400_000, 5);
    // the geometric mean of 0.4 and 1 has the geometric mean of 10 000 and 1 000
    expect(cyclesToFailure(table, Math.sqrt(0.4))).toBeCloseTo(Math.sqrt(1e7), 7);
    // the last slope ln(1/10)/ln(2.5) carried on to depth 2.5 is another tenth
    expect(cyclesToFailure(table, 2.5)).toBeCloseTo(100, 9);
  });

  it('of a table of points on a power law is that law everywhere', () => {
    const depths = [0.05, 0.2, 0.3, 0.75, 1];
    const table = cycleLifeByPoints(
      depths,
      depths.map((depth) => 3000 * depth ** -1.2),
    );
    fc.assert(
      fc.property(between(0.001, 1.2), (depth) => {
        expect(Math.abs(cyclesToFailure(table, depth) / cyclesToFailure(law, depth) - 1)).toBeLessThan(1e-13);
      }),
    );
  });

  it('throws on a table that is none', () => {
    expect(() => cycleLifeByPoints([0.5], [100])).toThrow('1 depths');
    expect(() => cycleLifeByPoints([0.5, 1], [100])).toThrow('2 depths and 1 lives');
    expect(() => cycleLifeByPoints([0.5, 0.5], [100, 90])).toThrow('depth 0.5 after 0.5');
    expect(() => cycleLifeByPoints([0, 0.5], [100, 90])).toThrow('100 cycles at depth 0');
    expect(() => cycleLifeByPoints([0.2, 0.5], [100, 0])).toThrow('0 cycles at depth 0.5');
  });

  // half the life each 10 K above the reference, none gained below: common practice
  it('halves each 10 K', () => {
    expect(lifeFactorByTemperature(45, 25, 10)).toBeCloseTo(0.25, 15);
    expect(lifeFactorByTemperature(30, 25, 10)).toBeCloseTo(Math.SQRT1_2, 15);
    expect(lifeFactorByTemperature(5, 25, 10)).toBe(1);
    expect(lifeFactorByTemperature(45, 25, Number.POSITIVE_INFINITY)).toBe(1);
  });

  // D = Σ n/N: Miner, Journal of Applied Mechanics 12, 1945 (from memory); values derived
  it('is used up by 100, 40, 80, 20, 100 % to 3.660344e-4', () => {
    const list = makeCycleList();
    rainflowInto(list, [1, 0.4, 0.8, 0.2, 1]);
    expect(Math.abs(minerSum(law, list) - 3.660344e-4)).toBeLessThan(5e-11);
  });

  it('is used up by 1000 cycles of 0.8 to 0.255027', () => {
    const list = makeCycleList();
    addCycle(list, 0.8, 0.6, 1000);
    expect(Math.abs(minerSum(law, list) - 0.255027)).toBeLessThan(5e-7);
  });
});
