/** A span of a series on the columns of a drawing: what was first, lowest, highest and last in each, and the mean. */
export interface PixelColumns {
  first: Float64Array;
  lowest: Float64Array;
  highest: Float64Array;
  last: Float64Array;
  mean: Float64Array;
}

/**
 * Reduces steps `from` (included) to `to` (not included) to `columns` columns, so that a year of minutes is drawn
 * with as many points as there are pixels and no one-minute spike is lost. With fewer steps than columns a step
 * covers several.
 */
export function perPixel(values: ArrayLike<number>, from: number, to: number, columns: number): PixelColumns {
  const make = () => new Float64Array(columns);
  const reduced = { first: make(), lowest: make(), highest: make(), last: make(), mean: make() };
  const steps = to - from;
  for (let column = 0; column < columns; column++) {
    const start = from + Math.floor((column * steps) / columns);
    const end = Math.max(start + 1, from + Math.floor(((column + 1) * steps) / columns));
    let lowest = values[start];
    let highest = lowest;
    let sum = 0;
    for (let i = start; i < end; i++) {
      const value = values[i];
      if (value < lowest) lowest = value;
      if (value > highest) highest = value;
      sum += value;
    }
    reduced.first[column] = values[start];
    reduced.lowest[column] = lowest;
    reduced.highest[column] = highest;
    reduced.last[column] = values[end - 1];
    reduced.mean[column] = sum / (end - start);
  }
  return reduced;
}

/**
 * A stepped area over columns one pixel wide, as a short path.
 * @param x0 left edge; @param baseY where nothing is drawn; @param yOf drawing's y of a value
 */
export function areaPath(
  x0: number,
  baseY: number,
  values: Float64Array,
  yOf: (value: number) => number,
): string {
  return `M${x0} ${baseY}${steps(baseY, values, yOf, 1)}V${baseY}z`;
}

/** The outline of the same, without the sides. */
export function linePath(x0: number, values: Float64Array, yOf: (value: number) => number): string {
  const y = tenth(yOf(values[0]));
  return `M${x0} ${y}${steps(y, values, yOf, 1)}`;
}

function steps(
  startY: number,
  values: Float64Array,
  yOf: (value: number) => number,
  columnPx: number,
): string {
  let path = '';
  let y = startY;
  let run = 0;
  for (const value of values) {
    const next = tenth(yOf(value));
    if (next !== y) {
      if (run > 0) path += `h${run}`;
      path += `V${next}`;
      y = next;
      run = 0;
    }
    run += columnPx;
  }
  return `${path}h${run}`;
}

function tenth(y: number): number {
  return Math.round(y * 10) / 10;
}
