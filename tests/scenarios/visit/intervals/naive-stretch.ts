import type { TruthRequest } from '../../../../src/scenarios/log/truth.ts';
import { makeColumns } from '../../../../src/sim/columns.ts';
import { simulateNaive } from '../../../naive/simulate.ts';

/** A stretch by the plain simulator, which shares nothing with the engine: only for a truth of one stretch. */
export const naiveStretch: NonNullable<TruthRequest['engine']> = (plant, controls, inputs) => {
  const { perStep, runs } = simulateNaive(plant, controls, inputs);
  const columns = makeColumns(inputs.count);
  columns.socFrac.set(perStep.soc);
  columns.generatorKw.set(perStep.generatorKw);
  columns.unservedKw.set(perStep.unservedKw);
  columns.dcUsedKw.set(perStep.dcUsedKw);
  columns.acUsedKw.set(perStep.acUsedKw);
  columns.batteryKw.set(perStep.batteryKw);
  columns.cabinetC.set(perStep.airNodeC);
  columns.cellC.set(perStep.batteryNodeC);
  const hours = inputs.stepMin / 60;
  for (const { startH, endH, cause } of runs)
    for (let i = Math.floor(startH / hours + 1e-9); i < Math.min(inputs.count, endH / hours - 1e-9); i++)
      columns.cause[i] = cause + 1;
  return { columns, after: null };
};
