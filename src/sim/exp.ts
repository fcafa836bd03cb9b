/**
 * 1 − e^−x from + - * / alone, so that every engine gives the same bits.
 * Its series at x/2^n below 1/8, then n times 1 − (1 − y)² = y·(2 − y), which keeps the digits of small x.
 * @param x exponent, >= 0
 * @returns 0 to 1, within 1e-15
 */
export function decayedShare(x: number): number {
  if (x <= 0) return 0;
  if (x > 700) return 1;
  let halvings = 0;
  let y = x;
  while (y > 0.125) {
    y *= 0.5;
    halvings++;
  }
  let term = y;
  let share = y;
  for (let n = 2; n < 12; n++) {
    term *= -y / n;
    share += term;
  }
  for (; halvings > 0; halvings--) share = share * (2 - share);
  return share;
}

/**
 * Exponential of a small square matrix by scaling, Taylor's series and squaring, with + - * / alone. Less the identity
 * all the way, (I + X)² − I = X·(X + 2I), so that small changes keep their digits.
 * @param a matrix, row by row, n × n
 * @returns e^a, row by row
 */
export function expMatrix(a: readonly number[], n: number): number[] {
  const largest = a.reduce((most, value) => Math.max(most, Math.abs(value)), 0) * n;
  let halvings = 0;
  for (let size = largest; size > 0.125; size *= 0.5) halvings++;
  const scaled = a.map((value) => value / 2 ** halvings);
  let term = scaled;
  let change = scaled;
  for (let order = 2; order < 16; order++) {
    term = multiply(term, scaled, n).map((value) => value / order);
    change = change.map((value, i) => value + term[i]);
  }
  for (; halvings > 0; halvings--) {
    const squared = multiply(change, change, n);
    change = change.map((value, i) => 2 * value + squared[i]);
  }
  return change.map((value, i) => value + Number(i % (n + 1) === 0));
}

function multiply(a: readonly number[], b: readonly number[], n: number): number[] {
  const product = new Array<number>(n * n).fill(0);
  for (let row = 0; row < n; row++)
    for (let col = 0; col < n; col++)
      for (let i = 0; i < n; i++) product[row * n + col] += a[row * n + i] * b[i * n + col];
  return product;
}
