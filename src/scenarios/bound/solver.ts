import type { LinearProgram } from './linear-program.ts';

/** What the solver found: the value of each column, and the multiplier of each row. */
interface Solution {
  columns: Float64Array;
  multipliers: Float64Array;
}

/** Solves programs; made once and used again, since loading it takes longer than a small program. */
export type Solver = (program: LinearProgram) => Solution;

/**
 * Loads the solver (HiGHS as WebAssembly, some 3.5 MB), which nothing else needs.
 * Errors of a returned solver: throws where the program has no optimum; ours always have one, for the run that they
 * are made from satisfies them.
 */
export async function loadSolver(): Promise<Solver> {
  const { default: loadHighs } = await import('highs');
  const highs = await loadHighs();
  return ({ rows, columns, entries, ...program }) => {
    // nothing to decide: a site without a battery has one way of running in every block
    if (columns === 0) return { columns: new Float64Array(0), multipliers: new Float64Array(rows) };
    const model = highs.createModel({
      numCols: columns,
      numRows: rows,
      colCost: program.cost.subarray(0, columns),
      colLower: program.columnLow.subarray(0, columns),
      colUpper: program.columnHigh.subarray(0, columns),
      rowLower: program.rowLow.subarray(0, rows),
      rowUpper: program.rowHigh.subarray(0, rows),
      matrix: {
        format: 'csr',
        numRows: rows,
        numCols: columns,
        starts: program.starts.subarray(0, rows + 1),
        indices: program.indices.subarray(0, entries),
        values: program.values.subarray(0, entries),
      },
    });
    try {
      // these programs are small and sparse: looking for what can be left out takes longer than it saves
      model.options.set({ output_flag: false, presolve: 'off' });
      model.run();
      const status = model.getModelStatus();
      if (status !== highs.constants.modelStatus.optimal)
        throw new Error(`the bound has no optimum: solver's status ${status}`);
      const { colValue, rowDual } = model.getSolution();
      return { columns: colValue, multipliers: rowDual };
    } finally {
      model.dispose();
    }
  };
}
