/**
 * 95 % point of Student's t: ends of a 90 % interval.
 * @param freedom degrees of freedom, >= 1; within 0.5 % from 3 on, 5 % too small at 1
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions, 1964, 26.7.5 (from memory).
 */
export function tQuantile95(freedom: number): number {
  const z = 1.6448536;
  const n = freedom;
  const first = (z ** 3 + z) / (4 * n);
  const second = (5 * z ** 5 + 16 * z ** 3 + 3 * z) / (96 * n ** 2);
  const third = (3 * z ** 7 + 19 * z ** 5 + 17 * z ** 3 - 15 * z) / (384 * n ** 3);
  return z + first + second + third;
}
