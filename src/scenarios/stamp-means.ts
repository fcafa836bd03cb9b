/**
 * Mean over each step of a quantity that was read at the stamps, with straight lines between them (trapezoids).
 * @param stamps value at stamp i, equally spaced
 * @param from   where step i begins, in steps from stamp i, -1 to 1: -1 where the stamp is the end of the step,
 *               0 where it is its beginning, -0.5 in its middle
 * @param wraps  whether the first stamp follows the last, as in a typical year; else the values at the ends hold on
 * @returns mean over step i; on a circle the sum is that of the stamps
 */
export function meansFromStamps(stamps: Float64Array, from: number, wraps: boolean): Float64Array {
  const count = stamps.length;
  const at = (i: number) =>
    wraps ? stamps[((i % count) + count) % count] : stamps[Math.min(count - 1, Math.max(0, i))];
  const first = Math.floor(from);
  const part = from - first;
  return stamps.map((_, i) => {
    const [a, b, c] = [at(i + first), at(i + first + 1), at(i + first + 2)];
    const before = a + ((b - a) * (1 + part)) / 2;
    const after = b + ((c - b) * part) / 2;
    return (1 - part) * before + part * after;
  });
}
