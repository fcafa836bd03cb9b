/**
 * Logarithm, exponential and powers from + - * / alone, so that every engine gives the same bits: what wear
 * takes off the capacity goes back into the step loop of the next year.
 */

// ln 2 in two parts; the first has so few digits that its multiples by whole numbers are exact
const LN2_HIGH = 0.6931471803691238;
const LN2_LOW = 1.9082149292705877e-10;

/**
 * Natural logarithm.
 * @param x >= 0, finite
 * @returns within 1e-15 of itself or 1e-16, whichever is more; −Infinity at 0, NaN below
 */
export function naturalLog(x: number): number {
  if (!(x > 0)) return x === 0 ? Number.NEGATIVE_INFINITY : Number.NaN;
  if (x === Number.POSITIVE_INFINITY) return x;
  let mantissa = x;
  let doublings = 0;
  for (; mantissa > 1.42; doublings++) mantissa *= 0.5;
  for (; mantissa < 0.71; doublings--) mantissa *= 2;
  // ln m = 2·artanh((m − 1)/(m + 1))
  const z = (mantissa - 1) / (mantissa + 1);
  const square = z * z;
  let series = 0;
  for (let n = 27; n > 0; n -= 2) series = series * square + 1 / n;
  return doublings * LN2_HIGH + (2 * z * series + doublings * LN2_LOW);
}

/**
 * e^x.
 * @param x any number
 * @returns within 1e-15 of itself for |x| < 700; 0 below −745, Infinity above 709.8
 */
export function exponential(x: number): number {
  if (x > 709.8) return Number.POSITIVE_INFINITY;
  if (x < -745.2) return 0;
  // x = parts · ln 2 / 32 + rest, so that a short series is enough
  const parts = Math.floor(x * PARTS_PER_LN2 + 0.5);
  const rest = x - parts * PART_HIGH - parts * PART_LOW;
  const series =
    1 + rest * (1 + rest * (1 / 2 + rest * (1 / 6 + rest * (1 / 24 + rest * (1 / 120 + rest * (1 / 720))))));
  const doublings = Math.floor(parts / 32);
  const value = series * PARTS_OF_TWO[parts - 32 * doublings];
  if (doublings === 0) return value;
  // in two halves, because 2^1024 alone would overflow and 2^−1075 vanish
  const half = Math.floor(doublings / 2);
  return value * twoTo(half) * twoTo(doublings - half);
}

const PARTS_PER_LN2 = 32 / LN2_HIGH;
const PART_HIGH = LN2_HIGH / 32;
const PART_LOW = LN2_LOW / 32;

/** 2^(n/32) for n from 0 to 31. */
const PARTS_OF_TWO = Float64Array.from({ length: 32 }, (_, n) => {
  const x = n * PART_HIGH + n * PART_LOW;
  let series = 1;
  for (let term = 24; term > 0; term--) series = 1 + (series * x) / term;
  return series;
});

/**
 * base^exponent for bases that are not negative.
 * @param base     >= 0, finite
 * @param exponent finite
 * @returns within about 1e-15·(1 + |exponent·ln base|) of itself; 0^0 is 1, 0 to a negative power Infinity
 */
export function powerOf(base: number, exponent: number): number {
  if (exponent === 0) return 1;
  return exponential(exponent * naturalLog(base));
}

function twoTo(whole: number): number {
  let result = 1;
  let factor = whole < 0 ? 0.5 : 2;
  for (let n = Math.abs(whole); n > 0; n = Math.floor(n / 2)) {
    if (n % 2 === 1) result *= factor;
    factor *= factor;
  }
  return result;
}
