import { describe, expect, it } from 'vitest';
import { snowfallCmPerH, snowfallFromDepthInto } from '../../src/sim/sky/snowfall.ts';

describe('fresh snow', () => {
  // ten to one (common practice); all snow at 0 °C, none at 2 °C (common practice), straight between
  it.each([
    [-10, 2],
    [0, 2],
    [1, 1],
    [1.5, 0.5],
    [2, 0],
    [15, 0],
  ])('2 mm/h at %d °C are %d cm/h of snow', (airC, cm) =>
    expect(snowfallCmPerH(2, airC, 0, 2)).toBeCloseTo(cm, 12),
  );

  it('is what the depth on the ground gains, as a rate', () => {
    const out = new Float64Array(6);
    snowfallFromDepthInto(out, Float64Array.of(4, 4, 6, 5, 5, 8), 30);
    expect([...out]).toEqual([0, 0, 4, 0, 0, 6]);
  });
});
