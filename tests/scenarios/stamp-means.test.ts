import { describe, expect, it } from 'vitest';
import { meansFromStamps } from '../../src/scenarios/stamp-means.ts';

/** The mean over a step by adding up many points of the straight lines between stamps on a circle. */
function byPoints(stamps: Float64Array, i: number, from: number): number {
  const points = 20_000;
  const count = stamps.length;
  let sum = 0;
  for (let k = 0; k < points; k++) {
    const at = i + from + (k + 0.5) / points;
    const first = Math.floor(at);
    const [a, b] = [stamps[(first + count) % count], stamps[(first + 1 + count) % count]];
    sum += a + (b - a) * (at - first);
  }
  return sum / points;
}

describe('means over steps from stamps', () => {
  const stamps = Float64Array.of(3, 8, -2, 5, 11);

  it.each([-1, -0.8, -0.5, -0.25, 0, 0.3])('are those of the straight lines, steps from %d', (from) => {
    const means = meansFromStamps(stamps, from, true);
    for (const [i, mean] of means.entries()) expect(mean).toBeCloseTo(byPoints(stamps, i, from), 6);
    expect(means.reduce((sum, value) => sum + value, 0)).toBeCloseTo(25, 9);
  });

  it('hold the values at the ends on, off a circle', () => {
    expect(Array.from(meansFromStamps(stamps, -1, false))).toEqual([3, 5.5, 3, 1.5, 8]);
    expect(Array.from(meansFromStamps(stamps, 0, false))).toEqual([5.5, 3, 1.5, 8, 11]);
  });
});
