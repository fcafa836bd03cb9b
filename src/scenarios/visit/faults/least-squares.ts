/** A straight fit of several variables to one. */
export interface LinearFit {
  coefficients: number[];
  /** standard errors of the coefficients, for readings that err independently */
  errors: number[];
  /** sum of squares that is left, and number of readings */
  leftSquares: number;
  count: number;
}

/**
 * Least squares without a constant: y against columns of x, by the normal equations.
 * @returns null where the columns do not tell their coefficients apart
 */
export function leastSquares(
  columns: readonly (readonly number[])[],
  y: readonly number[],
): LinearFit | null {
  const width = columns.length;
  const dot = (a: readonly number[], b: readonly number[]) =>
    a.reduce((sum, value, i) => sum + value * b[i], 0);
  const rows = columns.map((column, j) => [
    ...columns.map((other) => dot(column, other)),
    ...columns.map((_, k) => (j === k ? 1 : 0)),
    dot(column, y),
  ]);
  const scales = rows.map((row, j) => row[j]);
  for (let j = 0; j < width; j++) {
    const pivot = rows[j][j];
    if (!(pivot > 1e-9 * scales[j])) return null;
    rows[j] = rows[j].map((value) => value / pivot);
    for (let k = 0; k < width; k++) {
      if (k === j) continue;
      const factor = rows[k][j];
      rows[k] = rows[k].map((value, c) => value - factor * rows[j][c]);
    }
  }
  const coefficients = rows.map((row) => row[2 * width]);
  const leftSquares = y.reduce((sum, value, i) => {
    const fitted = coefficients.reduce((all, coefficient, j) => all + coefficient * columns[j][i], 0);
    return sum + (value - fitted) ** 2;
  }, 0);
  const variance = leftSquares / Math.max(1, y.length - width);
  const errors = rows.map((row, j) => Math.sqrt(Math.max(0, row[width + j] * variance)));
  return { coefficients, errors, leftSquares, count: y.length };
}

/** Takes from each group of readings its mean: a constant of its own for each. */
export function withoutMeans(values: readonly number[], groups: readonly number[]): number[] {
  const sums = new Map<number, { sum: number; count: number }>();
  for (const [i, group] of groups.entries()) {
    const { sum, count } = sums.get(group) ?? { sum: 0, count: 0 };
    sums.set(group, { sum: sum + values[i], count: count + 1 });
  }
  return values.map((value, i) => {
    const { sum, count } = sums.get(groups[i]) as { sum: number; count: number };
    return value - sum / count;
  });
}
