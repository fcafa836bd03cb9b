import { inverted, product, times, transposed } from './small-matrix.ts';

/** A straight-line model fitted to rows that belong to independent clusters, such as days. */
export interface ClusteredFit {
  /** one for each regressor */
  beta: number[];
  /** by cluster, how much beta changes when it is left out: their squares make the variance */
  pulls: Map<number, number[]>;
  rows: number;
}

/** The scatter of the moments is that about the coefficients found: so often again. */
const TURNS = 3;

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

  /**
   * The same with something known beforehand of each coefficient: a mean and a standard deviation (infinite: nothing).
   * Where the rows hardly tell coefficients apart, what is known holds them, and the errors carry what is not known.
   * The moments z·(y − x·beta) of all clusters are weighed by how they scatter from cluster to cluster.
   * Source: generalised method of moments, Hansen, Econometrica 50(4), 1982 (from memory), with a normal prior.
   * @returns the coefficients and their standard errors; null where neither tells them apart
   */
  held(prior: readonly { mean: number; sd: number }[]): { beta: number[]; error: number[] } | null {
    const { width } = this;
    const count = this.clusters.size;
    if (count <= width) return null;
    const all = new Float64Array(width * width);
    for (const { zx } of this.clusters.values()) for (let i = 0; i < zx.length; i++) all[i] += zx[i];
    const sure = prior.map(({ sd }) => 1 / sd ** 2);
    let beta = this.fit()?.beta ?? prior.map(({ mean }) => mean);
    for (let turn = 0; ; turn++) {
      const scatter = new Float64Array(width * width);
      const zy = new Float64Array(width);
      for (const m of this.clusters.values()) {
        const fitted = times(m.zx, beta, width);
        const left = m.zy.map((v, i) => v - fitted[i]);
        for (let i = 0; i < width; i++) {
          zy[i] += m.zy[i];
          for (let j = 0; j < width; j++)
            scatter[i * width + j] += (left[i] * left[j] * count) / (count - width);
        }
      }
      const weigh = inverted(scatter, width);
      if (weigh === null) return null;
      const across = transposed(all, width);
      const weighed = product(across, weigh, width);
      const normal = product(weighed, all, width);
      const right = times(weighed, zy, width).map((v, i) => v + sure[i] * prior[i].mean);
      for (let i = 0; i < width; i++) normal[i * width + i] += sure[i];
      const spread = inverted(normal, width);
      if (spread === null) return null;
      beta = times(spread, right, width);
      if (turn === TURNS) return { beta, error: beta.map((_, i) => Math.sqrt(spread[i * width + i])) };
    }
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
