import type { Ledger } from '../../sim/ledger.ts';
import type { SimulatedRun } from './block.ts';
import { type Blocks, blockTrades } from './block-trades.ts';
import { limitsOf } from './limits.ts';
import { boundModel, type Model } from './model.ts';
import { provenLeast } from './proof.ts';
import type { Solver } from './solver.ts';

/** The least fuel, and a way of running that comes down to it: one of many, and not one that rules could follow. */
export interface Foresight {
  /** nothing that serves the same burns less [L] */
  fuelL: number;
  generatedKwh: number;
  /** blocks: length [h], generator output, mean [kW], and state of charge at the end (null: no battery) */
  hours: Float64Array;
  generatorKw: Float64Array;
  socFrac: Float64Array | null;
  /** blocks of which only sums are known */
  looseBlocks: number;
}

/**
 * The bound of a simulated run.
 * @param blockMin length of a block [min], of whole steps
 */
export function foresightOf(
  run: SimulatedRun & { ledger: Ledger },
  solver: Solver,
  blockMin = 60,
): Foresight {
  const limits = limitsOf(run.plant);
  const blocks = blockTrades(run, limits, blockMin);
  const model = boundModel(limits, blocks, run.ledger.storedStartKwh);
  const { columns, multipliers } = solver(model.program);
  const fuelL = Math.max(0, model.fixedL + provenLeast(model.program, multipliers));
  return { fuelL, ...readBlocks(blocks, model, columns, limits.capacityKwh) };
}

/** Generator and store of every block, from the solver's columns. */
function readBlocks(
  { trades, hours, loose }: Blocks,
  { fuelColumn, storedColumn }: Model,
  columns: Float64Array,
  capacityKwh: number,
): Omit<Foresight, 'fuelL'> {
  const generatorKw = Float64Array.from(trades, ({ generatedKwh, stretches }, t) => {
    const more = stretches.reduce(
      (sum, { generatedPerL }, j) => sum + generatedPerL * columns[fuelColumn[t] + j],
      0,
    );
    return (generatedKwh + more) / hours[t];
  });
  return {
    generatedKwh: generatorKw.reduce((sum, kw, t) => sum + kw * hours[t], 0),
    hours,
    generatorKw,
    socFrac:
      capacityKwh > 0 ? Float64Array.from(storedColumn, (column) => columns[column] / capacityKwh) : null,
    looseBlocks: loose,
  };
}
