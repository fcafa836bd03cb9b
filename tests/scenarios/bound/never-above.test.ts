import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Foresight, foresightOf } from '../../../src/scenarios/bound/foresight.ts';
import { loadSolver, type Solver } from '../../../src/scenarios/bound/solver.ts';
import { makeColumns } from '../../../src/sim/columns.ts';
import { simulate } from '../../../src/sim/simulate.ts';
import { featuredSystem, type RandomSystem, randomSystem } from '../../naive/random-system.ts';

let solver: Solver;
beforeAll(async () => {
  solver = await loadSolver();
});

/** The bound of a random system in blocks of at least so many minutes, and what it burnt. */
function both(
  { plant, controls, inputs }: RandomSystem,
  wantedMin: number,
): { fuelL: number; least: Foresight } {
  // fine steps are never blocks of their own: programs of ten thousand rows, two hundred times
  const blockMin = inputs.count > 1500 ? 60 : wantedMin;
  const columns = makeColumns(inputs.count);
  const ledger = simulate(plant, controls, inputs, { columns });
  return {
    fuelL: ledger.totals.fuelL,
    least: foresightOf({ plant, controls, inputs, columns, ledger }, solver, blockMin),
  };
}

describe('the bound is never above what the rules burnt', () => {
  for (const [name, systems] of [
    ['plain', randomSystem],
    ['featured', featuredSystem],
  ] as const)
    for (const blockMin of [1, 60])
      it(`on 200 ${name} systems, in blocks of ${blockMin === 1 ? 'a step' : 'an hour'}`, () => {
        let burning = 0;
        let close = 0;
        let shares = 0;
        fc.assert(
          fc.property(systems, (system) => {
            const { fuelL, least } = both(system, blockMin);
            expect(least.fuelL).toBeLessThanOrEqual(fuelL * (1 + 1e-6) + 1e-9);
            expect(least.fuelL).toBeGreaterThanOrEqual(0);
            if (fuelL > 0) {
              burning++;
              shares += least.fuelL / fuelL;
              if (least.fuelL > 0.5 * fuelL) close++;
            }
          }),
          { numRuns: 200, endOnFailure: true },
        );
        // a bound of nothing would pass too: it must come near what was burnt often enough
        expect(burning).toBeGreaterThan(100);
        expect(close).toBeGreaterThan(burning / 4);
        expect(shares / burning).toBeGreaterThan(0.5);
      }, 300_000);
});
