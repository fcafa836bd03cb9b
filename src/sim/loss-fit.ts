/** A loss curve fitted to efficiencies; shares of the rating, like the points. */
export interface LossFit {
  /** loss at no load, loss in proportion, and further loss at the rating, growing as the square; all >= 0 */
  idleShare: number;
  linear: number;
  quadraticAtRated: number;
  /** how far the curve's efficiency is from the point that it meets worst, and the share of that point */
  worst: number;
  worstShare: number;
}

/**
 * The loss curve idle + linear·P + quadratic·P² that meets efficiencies best: least squares of the loss over the
 * power delivered (1/efficiency − 1), so that part load counts as much as full load, with no coefficient below 0.
 * @param shares       power delivered over the rating, > 0, at least as many different ones as coefficients
 * @param efficiencies power delivered over power drawn, 0 to 1, as many
 * Source: least squares with bounds as in Lawson and Hanson, Solving Least Squares Problems, 1974 (from memory): with
 * three coefficients every choice of those that are not 0 can be tried, and the best that has none below 0 is it.
 */
export function fitLossCurve(shares: readonly number[], efficiencies: readonly number[]): LossFit {
  const losses = efficiencies.map((efficiency) => 1 / efficiency - 1);
  let best = [0, 0, 0];
  let least = squares(shares, losses, best);
  for (let chosen = 1; chosen < 8; chosen++) {
    const tried = solveFor(chosen, shares, losses);
    if (tried === null || tried.some((value) => value < 0)) continue;
    const sum = squares(shares, losses, tried);
    if (sum < least) {
      best = tried;
      least = sum;
    }
  }
  const [idleShare, linear, quadraticAtRated] = best;
  let worst = 0;
  let worstShare = shares[0];
  for (let j = 0; j < shares.length; j++) {
    const off = Math.abs(1 / (1 + lossAt(shares[j], best)) - efficiencies[j]);
    if (off > worst) {
      worst = off;
      worstShare = shares[j];
    }
  }
  return { idleShare, linear, quadraticAtRated, worst, worstShare };
}

/** Loss over power delivered. */
function lossAt(share: number, [idle, linear, quadratic]: readonly number[]): number {
  return idle / share + linear + quadratic * share;
}

function squares(
  shares: readonly number[],
  losses: readonly number[],
  coefficients: readonly number[],
): number {
  let sum = 0;
  for (let j = 0; j < shares.length; j++) {
    const off = lossAt(shares[j], coefficients) - losses[j];
    sum += off * off;
  }
  return sum;
}

/** Least squares with the coefficients of a bit mask, the others 0; null where the points do not settle them. */
function solveFor(chosen: number, shares: readonly number[], losses: readonly number[]): number[] | null {
  const used = [0, 1, 2].filter((k) => (chosen & (1 << k)) !== 0);
  const term = (k: number, share: number) => (k === 0 ? 1 / share : k === 1 ? 1 : share);
  const rows = used.map((k) => [
    ...used.map((other) => shares.reduce((sum, share) => sum + term(k, share) * term(other, share), 0)),
    shares.reduce((sum, share, j) => sum + term(k, share) * losses[j], 0),
  ]);
  const solved = solve(rows);
  if (solved === null) return null;
  const coefficients = [0, 0, 0];
  for (const [i, k] of used.entries()) coefficients[k] = solved[i];
  return coefficients;
}

/** Elimination of a symmetric positive matrix, right side in the last column; null where the points are too alike. */
function solve(rows: number[][]): number[] | null {
  const n = rows.length;
  const sizes = rows.map((row, i) => row[i]);
  for (let k = 0; k < n; k++) {
    if (!(rows[k][k] > 1e-10 * sizes[k])) return null;
    for (let i = k + 1; i < n; i++) {
      const factor = rows[i][k] / rows[k][k];
      for (let j = k; j <= n; j++) rows[i][j] -= factor * rows[k][j];
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let k = n - 1; k >= 0; k--) {
    let rest = rows[k][n];
    for (let j = k + 1; j < n; j++) rest -= rows[k][j] * x[j];
    x[k] = rest / rows[k][k];
  }
  return x;
}
