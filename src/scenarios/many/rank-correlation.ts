/**
 * Spearman's rank correlation: the correlation of ranks, ties sharing their mean rank.
 * @param a and @param b values of the same things, as many, at least two
 * @returns −1 to 1; 1 where either has no order at all, for then nothing is ranked wrongly
 * Source: Spearman, The American Journal of Psychology 15, 1904 (from memory).
 */
export function rankCorrelation(a: readonly number[], b: readonly number[]): number {
  const [ra, rb] = [ranks(a), ranks(b)];
  const mean = (a.length - 1) / 2;
  let [ab, aa, bb] = [0, 0, 0];
  for (let i = 0; i < a.length; i++) {
    ab += (ra[i] - mean) * (rb[i] - mean);
    aa += (ra[i] - mean) ** 2;
    bb += (rb[i] - mean) ** 2;
  }
  return aa === 0 || bb === 0 ? 1 : ab / Math.sqrt(aa * bb);
}

/** Place of each value in rising order from 0; equal ones share their mean. */
function ranks(values: readonly number[]): number[] {
  return values.map((value) => {
    let [below, same] = [0, 0];
    for (const other of values) {
      if (other < value) below++;
      if (other === value) same++;
    }
    return below + (same - 1) / 2;
  });
}
