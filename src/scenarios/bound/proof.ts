import type { LinearProgram } from './linear-program.ts';

/**
 * A value that no solution of a program can be below, from multipliers of its rows: any multipliers give a true
 * one, so a solver's mistake or tolerance can only make it lower. Columns must have finite limits.
 * Source: weak duality of linear programs; the form with limits on both sides is that of Neumaier and Shcherbina,
 * Mathematical Programming 99(2), 2004 (from memory).
 * @param multipliers one a row; a positive one leans on the row's lower limit
 */
export function provenLeast(program: LinearProgram, multipliers: Float64Array): number {
  const reduced = program.cost.slice(0, program.columns);
  let least = 0;
  for (let i = 0; i < program.rows; i++) {
    const limit = multipliers[i] > 0 ? program.rowLow[i] : program.rowHigh[i];
    // a row without that limit cannot carry the multiplier
    if (multipliers[i] === 0 || !Number.isFinite(limit)) continue;
    least += multipliers[i] * limit;
    for (let j = program.starts[i]; j < program.starts[i + 1]; j++)
      reduced[program.indices[j]] -= multipliers[i] * program.values[j];
  }
  for (let j = 0; j < program.columns; j++)
    least += reduced[j] * (reduced[j] > 0 ? program.columnLow[j] : program.columnHigh[j]);
  return least;
}
