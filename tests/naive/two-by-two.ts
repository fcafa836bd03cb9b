/** [[a, b], [c, d]] as a, b, c, d */
export type Matrix = readonly [number, number, number, number];

/**
 * exp(M·t) and its integral over time from 0 to t, of a 2×2 matrix with real eigenvalues, by Sylvester's formula.
 * x' = M·x + q with constant q then gives x(t) = stay·x(0) + gain·q, also where M cannot be inverted.
 */
export function propagate(m: Matrix, t: number): { stay: Matrix; gain: Matrix } {
  const [a, b, c, d] = m;
  const middle = (a + d) / 2;
  const apart = Math.sqrt(((a - d) / 2) ** 2 + b * c);
  const one = middle + apart;
  const two = middle - apart;
  return {
    stay: functionOf(m, one, two, (rate) => Math.exp(rate * t)),
    gain: functionOf(m, one, two, (rate) => (rate === 0 ? t : Math.expm1(rate * t) / rate)),
  };
}

/** f(M) = f(one)·(M − two)/(one − two) + f(two)·(M − one)/(two − one); equal eigenvalues: M is a multiple of 1 */
function functionOf(m: Matrix, one: number, two: number, f: (eigenvalue: number) => number): Matrix {
  if (one === two) return [f(one), 0, 0, f(one)];
  const slope = (f(one) - f(two)) / (one - two);
  const level = (one * f(two) - two * f(one)) / (one - two);
  const [a, b, c, d] = m;
  return [level + slope * a, slope * b, slope * c, level + slope * d];
}

export const times = ([a, b, c, d]: Matrix, x: number, y: number): [number, number] => [
  a * x + b * y,
  c * x + d * y,
];
