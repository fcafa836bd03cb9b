/**
 * Columns of the same axis, added step by step.
 * @param columns at least one, all of one length and unit
 * @returns their sum; NaN in steps in which one of them is not known
 */
export function sumOfColumns(columns: readonly Float64Array[]): Float64Array {
  return columns[0].map((_, i) => columns.reduce((sum, column) => sum + column[i], 0));
}
