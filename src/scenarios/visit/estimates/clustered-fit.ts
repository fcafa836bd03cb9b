/** A straight-line model fitted to rows that belong to independent clusters, such as days. */
export interface ClusteredFit {
  /** one for each regressor */
  beta: number[];
  /** by cluster, how much beta changes when it is left out: their squares make the variance */
  pulls: Map<number, number[]>;
  rows: number;
}

interface Moments {
  zx: Float64Array;
  zy: Float64Array;
}

/**
 * Collects the rows of y = x·beta + error, and solves for beta by instruments z (least squares where z is x): errors
 * in x that z does not share do not bias it. Errors may depend on one another within a cluster in any way.
 * The variance is that of leaving out one cluster after the other, so that a few clusters with most of the weight do
 * not look surer than they are. Source: Bell and McCaffrey, Survey Methodology 28(2), 2002 (from memory).
 */
export class ClusteredRows {
  private readonly clusters = new Map<number, Moments>();
  private rows = 0;

  constructor(private readonly width: number) {}

  add(cluster: number, x: ArrayLike<number>, y: number, weight = 1, z: ArrayLike<number> = x): void {
    const { width } = this;
    let m = this.clusters.get(cluster);
    if (m === undefined) {
      m = { zx: new Float64Array(width * width), zy: new Float64Array(width) };
      this.clusters.set(cluster, m);
    }
    for (let i = 0; i < width; i++) {
      for (let j = 0; j < width; j++) m.zx[i * width + j] += weight * z[i] * x[j];
      m.zy[i] += weight * z[i] * y;
    }
    this.rows++;
  }

  get count(): number {
    return this.clusters.size;
  }

  /** @returns null where the rows do not tell the regressors apart */
  fit(): ClusteredFit | null {
    const { width } = this;
    const zx = new Float64Array(width * width);
    const zy = new Float64Array(width);
    for (const m of this.clusters.values()) {
      for (let i = 0; i < zx.length; i++) zx[i] += m.zx[i];
      for (let i = 0; i < width; i++) zy[i] += m.zy[i];
    }
    const inverse = inverted(zx, width);
    if (inverse === null) return null;
    const beta = times(inverse, zy, width);
    const pulls = new Map<number, number[]>();
    for (const [cluster, m] of this.clusters) {
      const fittedY = times(m.zx, beta, width);
      const left = Float64Array.from(m.zy, (v, i) => v - fittedY[i]);
      const without = inverted(
        zx.map((v, i) => v - m.zx[i]),
        width,
      );
      // what one cluster alone can tell is not told
      if (without === null) return null;
      pulls.set(cluster, times(without, left, width));
    }
    return { beta, pulls, rows: this.rows };
  }
}

/**
 * Standard error of what is made of one or more fits, by its slopes in their betas.
 * @param parts each a fit and the slopes; clusters of the same number are the same cluster
 */
export function clusteredError(parts: readonly { fit: ClusteredFit; slopes: readonly number[] }[]): number {
  const sums = new Map<number, number>();
  for (const { fit, slopes } of parts)
    for (const [cluster, pull] of fit.pulls) {
      const moved = slopes.reduce((sum, slope, i) => sum + slope * pull[i], 0);
      sums.set(cluster, (sums.get(cluster) ?? 0) + moved);
    }
  let squares = 0;
  for (const moved of sums.values()) squares += moved * moved;
  return Math.sqrt((squares * (sums.size - 1)) / sums.size);
}

function times(matrix: ArrayLike<number>, vector: ArrayLike<number>, width: number): number[] {
  return Array.from({ length: width }, (_, i) => {
    let sum = 0;
    for (let j = 0; j < width; j++) sum += matrix[i * width + j] * vector[j];
    return sum;
  });
}

/** Inverse by elimination with pivots, of a matrix scaled to a diagonal of ones; null where it has none. */
function inverted(matrix: Float64Array, width: number): Float64Array | null {
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
