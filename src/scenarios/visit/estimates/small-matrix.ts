/** Matrix (rows of `width`) times vector. */
export function times(matrix: ArrayLike<number>, vector: ArrayLike<number>, width: number): number[] {
  return Array.from({ length: width }, (_, i) => {
    let sum = 0;
    for (let j = 0; j < width; j++) sum += matrix[i * width + j] * vector[j];
    return sum;
  });
}

/** Inverse by elimination with pivots, of a matrix scaled to a diagonal of ones; null where it has none. */
export function inverted(matrix: Float64Array, width: number): Float64Array | null {
  const scale = Float64Array.from({ length: width }, (_, i) => Math.sqrt(Math.abs(matrix[i * width + i])));
  if (scale.some((s) => !(s > 0))) return null;
  const wide = 2 * width;
  const a = Array.from({ length: width }, (_, i) =>
    Float64Array.from({ length: wide }, (_, j) =>
      j < width ? matrix[i * width + j] / (scale[i] * scale[j]) : Number(j - width === i),
    ),
  );
  for (let i = 0; i < width; i++) {
    let best = i;
    for (let k = i + 1; k < width; k++) if (Math.abs(a[k][i]) > Math.abs(a[best][i])) best = k;
    if (Math.abs(a[best][i]) < 1e-10) return null;
    [a[i], a[best]] = [a[best], a[i]];
    const pivot = a[i][i];
    for (let j = 0; j < wide; j++) a[i][j] /= pivot;
    for (let k = 0; k < width; k++) {
      const by = a[k][i];
      if (k !== i && by !== 0) for (let j = 0; j < wide; j++) a[k][j] -= by * a[i][j];
    }
  }
  return Float64Array.from({ length: width * width }, (_, at) => {
    const [i, j] = [Math.floor(at / width), at % width];
    return a[i][width + j] / (scale[i] * scale[j]);
  });
}

export function transposed(matrix: ArrayLike<number>, width: number): Float64Array {
  return Float64Array.from(
    { length: width * width },
    (_, at) => matrix[(at % width) * width + Math.floor(at / width)],
  );
}

export function product(a: ArrayLike<number>, b: ArrayLike<number>, width: number): Float64Array {
  return Float64Array.from({ length: width * width }, (_, at) => {
    let sum = 0;
    for (let k = 0; k < width; k++)
      sum += a[Math.floor(at / width) * width + k] * b[k * width + (at % width)];
    return sum;
  });
}
