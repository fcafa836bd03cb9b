import { beforeAll, describe, expect, it } from 'vitest';
import { bestLPerKwh, fuelHull, fuelOnHull } from '../../../src/scenarios/bound/fuel-hull.ts';
import { LinearProgram } from '../../../src/scenarios/bound/linear-program.ts';
import { provenLeast } from '../../../src/scenarios/bound/proof.ts';
import { loadSolver, type Solver } from '../../../src/scenarios/bound/solver.ts';
import { sumOfTrades, type Trade, tradeAmong } from '../../../src/scenarios/bound/trade.ts';
import { plainGenerator } from '../../references/plain-site.ts';

let solver: Solver;
beforeAll(async () => {
  solver = await loadSolver();
});

const INFINITE = Number.POSITIVE_INFINITY;

/** Least 3x + 2y with x + y >= 4, x + 3y >= 6, x and y up to 10: 8 at (0, 4). */
function smallProgram(): LinearProgram {
  const program = new LinearProgram();
  const x = program.column(0, 10, 3);
  const y = program.column(0, 10, 2);
  program.put(x, 1);
  program.put(y, 1);
  program.endRow(4, INFINITE);
  program.put(x, 1);
  program.put(y, 3);
  program.endRow(6, INFINITE);
  return program;
}

describe('proof by multipliers', () => {
  it('is the optimum with the multipliers of the optimum', () => {
    const program = smallProgram();
    const { columns, multipliers } = solver(program);
    expect([...columns]).toEqual([0, 4]);
    expect(provenLeast(program, multipliers)).toBeCloseTo(8, 9);
  });

  it('is never above the optimum, whatever the multipliers', () => {
    const program = smallProgram();
    let below = 0;
    for (let a = -3; a <= 5; a += 0.5)
      for (let b = -3; b <= 5; b += 0.5) {
        const least = provenLeast(program, Float64Array.of(a, b));
        expect(least).toBeLessThanOrEqual(8 + 1e-12);
        if (least > 0) below++;
      }
    expect(below).toBeGreaterThan(5);
  });

  it('refuses a program that nothing satisfies', () => {
    const program = new LinearProgram();
    program.put(program.column(0, 1, 1), 1);
    program.endRow(2, INFINITE);
    expect(() => solver(program)).toThrow('no optimum');
  });

  it('grows with thousands of rows', () => {
    const program = new LinearProgram();
    for (let i = 0; i < 3000; i++) {
      program.put(program.column(0, 10, 1), 2);
      program.endRow(4, INFINITE);
    }
    expect(provenLeast(program, solver(program).multipliers)).toBeCloseTo(6000, 6);
  });
});

describe('fuel hull', () => {
  it('keeps a convex curve and bridges a hollow one', () => {
    const convex = plainGenerator(20, { fuelKw: [0, 10, 20], fuelLPerH: [1, 3, 7] });
    expect(fuelHull([convex])).toEqual([
      { kw: 0, lPerH: 1 },
      { kw: 10, lPerH: 3 },
      { kw: 20, lPerH: 7 },
    ]);
    const hollow = plainGenerator(20, { fuelKw: [0, 10, 20], fuelLPerH: [1, 5, 7] });
    expect(fuelHull([hollow])).toEqual([
      { kw: 0, lPerH: 1 },
      { kw: 20, lPerH: 7 },
    ]);
    expect(bestLPerKwh(fuelHull([convex]))).toBeCloseTo(0.3, 12);
    expect(fuelOnHull(fuelHull([convex]), 15)).toBeCloseTo(5, 12);
  });

  it('of two sets is below both, and goes on to the larger rating', () => {
    const small = plainGenerator(5, { fuelKw: [0, 5], fuelLPerH: [0.5, 2] });
    const large = plainGenerator(20, { fuelKw: [0, 20], fuelLPerH: [2, 6] });
    const hull = fuelHull([small, large]);
    expect(hull[hull.length - 1]).toEqual({ kw: 20, lPerH: 6 });
    for (const kw of [0, 1, 2.5, 5]) expect(fuelOnHull(hull, kw)).toBeLessThanOrEqual(0.5 + 0.3 * kw + 1e-12);
    for (const kw of [0, 5, 12, 20]) expect(fuelOnHull(hull, kw)).toBeLessThanOrEqual(2 + 0.2 * kw + 1e-12);
  });
});

/** Stored at a fuel by a trade, stretches used in order [kWh]. */
function storedAt({ leastL, storedKwh, stretches }: Trade, fuelL: number): number {
  let left = fuelL - leastL;
  let stored = storedKwh;
  for (const { litres, storedPerL } of stretches) {
    const used = Math.min(left, litres);
    stored += used * storedPerL;
    left -= used;
  }
  return stored;
}

describe('trades', () => {
  it('is the upper hull of its modes, and forgets what costs more for less', () => {
    const trade = tradeAmong([
      { fuelL: 0, storedKwh: -5, generatedKwh: 0 },
      { fuelL: 4, storedKwh: 1, generatedKwh: 8 },
      { fuelL: 6, storedKwh: 10, generatedKwh: 15 },
      { fuelL: 7, storedKwh: 9, generatedKwh: 16 },
    ]);
    expect(trade.stretches).toEqual([{ litres: 6, storedPerL: 2.5, generatedPerL: 2.5 }]);
  });

  it('adds up with the best first, and putting stretches together never lowers it', () => {
    const trades = Array.from({ length: 60 }, (_, i) =>
      tradeAmong([
        { fuelL: 0, storedKwh: -3, generatedKwh: 0 },
        { fuelL: 1 + (i % 5) * 0.1, storedKwh: 1 + i * 0.02, generatedKwh: 3 },
        { fuelL: 2, storedKwh: 2.5 + i * 0.01, generatedKwh: 5 },
      ]),
    );
    const sum = sumOfTrades(trades);
    expect(sum.stretches.length).toBeLessThan(7);
    const exact: Trade = {
      ...sum,
      stretches: trades.flatMap(({ stretches }) => stretches).sort((a, b) => b.storedPerL - a.storedPerL),
    };
    for (let fuelL = 0; fuelL <= 120; fuelL += 5) {
      const lifted = storedAt(sum, fuelL) - storedAt(exact, fuelL);
      expect(lifted).toBeGreaterThanOrEqual(-1e-9);
      // within one per cent of the 330 kWh from one end to the other
      expect(lifted).toBeLessThan(3.3);
    }
    expect(storedAt(sum, 0)).toBeCloseTo(-180, 9);
    expect(storedAt(sum, 120)).toBeCloseTo(storedAt(exact, 120), 9);
  });
});
