import type { Blocks } from './block-trades.ts';
import type { Limits } from './limits.ts';
import { LinearProgram } from './linear-program.ts';

/** A program, and which of its columns stand for what. */
export interface Model {
  program: LinearProgram;
  /** fuel that no column can change [L] */
  fixedL: number;
  /** by block: first column of its stretches of fuel [L each], and of its stored energy at the end [kWh]; -1: none */
  fuelColumn: Int32Array;
  storedColumn: Int32Array;
}

/**
 * The least fuel with which the same could have been served: litres to burn in every block, stored energy from
 * block to block. RELAXATIONS.md argues that what the rules did satisfies every row.
 * @param startKwh stored energy at the start
 */
export function boundModel(limits: Limits, blocks: Blocks, startKwh: number): Model {
  const { trades, hours, storedKwh } = blocks;
  const count = trades.length;
  const program = new LinearProgram();
  const model: Model = {
    program,
    fixedL: 0,
    fuelColumn: new Int32Array(count),
    storedColumn: new Int32Array(count).fill(-1),
  };
  for (let t = 0; t < count; t++) {
    const { leastL, storedKwh: storedAtLeastKwh, stretches } = trades[t];
    model.fixedL += leastL;
    model.fuelColumn[t] = program.columns;
    for (const { litres, storedPerL } of stretches) program.put(program.column(0, litres, 1), -storedPerL);
    if (limits.capacityKwh === 0) {
      program.endRow(Number.NEGATIVE_INFINITY, storedAtLeastKwh);
      continue;
    }
    // a run that went below the cut-off (forced draw) may do so here too; at the end there is as much as it had
    const ran = storedKwh[t] - SLACK * limits.capacityKwh;
    const floor = t === count - 1 ? ran : Math.min(limits.cutoffKwh, ran);
    const stored = program.column(floor, Math.max(limits.capacityKwh, storedKwh[t]));
    const before = t === 0 ? -1 : model.storedColumn[t - 1];
    model.storedColumn[t] = stored;
    program.put(stored, 1);
    if (before >= 0) program.put(before, -1);
    program.endRow(Number.NEGATIVE_INFINITY, storedAtLeastKwh + (before >= 0 ? 0 : startKwh));
    if (limits.taper) addTaper(program, limits.taper, hours[t], stored, before, startKwh);
  }
  return model;
}

/** Rounding of the run's own stored energy, as a share of the capacity. */
const SLACK = 1e-12;

/** Whatever is on offer, the store ends no higher than a charge by the taper alone takes it. */
function addTaper(
  program: LinearProgram,
  { endKwh, perH }: NonNullable<Limits['taper']>,
  hours: number,
  stored: number,
  before: number,
  startKwh: number,
): void {
  const kept = Math.exp(-perH * hours);
  program.put(stored, 1);
  if (before >= 0) program.put(before, -kept);
  program.endRow(Number.NEGATIVE_INFINITY, endKwh * (1 - kept) + (before >= 0 ? 0 : kept * startKwh));
}
