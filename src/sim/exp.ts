/**
 * e^-x from + - * / alone, so that every engine gives the same bits.
 * Taylor's series of x/2^n below 1/8, squared n times.
 * @param x exponent, >= 0
 * @returns e^-x, within a few units in the last place; 0 above 700
 */
export function expNeg(x: number): number {
  if (x <= 0) return 1;
  if (x > 700) return 0;
  let halvings = 0;
  let y = x;
  while (y > 0.125) {
    y *= 0.5;
    halvings++;
  }
  // 1 - e^-y by its series, so that small exponents keep their digits through the squaring
  let term = y;
  let lost = y;
  for (let n = 2; n < 12; n++) {
    term *= -y / n;
    lost += term;
  }
  while (halvings > 0) {
    lost = lost * (2 - lost);
    halvings--;
  }
  return 1 - lost;
}

/**
 * Exponential of a small square matrix by scaling, Taylor's series and squaring, with + - * / alone.
 * @param a matrix, row by row, n × n
 * @returns e^a, row by row
 */
export function expMatrix(a: readonly number[], n: number): number[] {
  const largest = a.reduce((most, value) => Math.max(most, Math.abs(value)), 0) * n;
  let halvings = 0;
  for (let size = largest; size > 0.125; size *= 0.5) halvings++;
  const scaled = a.map((value) => value / 2 ** halvings);
  let term = identity(n);
  let sum = identity(n);
  for (let order = 1; order < 16; order++) {
    term = multiply(term, scaled, n).map((value) => value / order);
    sum = sum.map((value, i) => value + term[i]);
  }
  for (; halvings > 0; halvings--) sum = multiply(sum, sum, n);
  return sum;
}

function identity(n: number): number[] {
  return Array.from({ length: n * n }, (_, i) => (i % (n + 1) === 0 ? 1 : 0));
}

function multiply(a: readonly number[], b: readonly number[], n: number): number[] {
  const product = new Array<number>(n * n).fill(0);
  for (let row = 0; row < n; row++)
    for (let col = 0; col < n; col++)
      for (let i = 0; i < n; i++) product[row * n + col] += a[row * n + i] * b[i * n + col];
  return product;
}
