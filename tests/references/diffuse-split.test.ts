import { describe, expect, it } from 'vitest';
import { diffuseFraction, splitGlobal } from '../../src/sim/sky/diffuse-split.ts';
import { extraterrestrialNormal } from '../../src/sim/sky/extraterrestrial.ts';

const cosDeg = (deg: number) => Math.cos((deg * Math.PI) / 180);

describe('diffuse split (Erbs, Klein, Duffie, Solar Energy 28, 1982)', () => {
  // from the published polynomial (derived)
  it.each([
    [0.1, 0.991],
    [0.22, 0.9802],
    [0.3, 0.948596],
    [0.5, 0.65915],
    [0.7, 0.24398],
    [0.8, 0.16527],
    [0.9, 0.165],
  ])('kt %d', (kt, fraction) => expect(Math.abs(diffuseFraction(kt) - fraction)).toBeLessThan(1e-6));

  // published test expectations (seen, recomputed), extraterrestrial by Spencer with 1366.1 W/m²
  it.each([
    [1, 85, 50, 41.57036, 96.719267],
    [1, 10, 1000, 217.860117, 794.205651],
    [171, 10, 1000, 170.790318, 842.001578],
  ])('day %d, zenith %d', (day, zenith, global, diffuse, direct) => {
    const split = splitGlobal(global, cosDeg(zenith), extraterrestrialNormal(day));
    expect(Math.abs(split.diffuse - diffuse)).toBeLessThan(1e-5);
    expect(Math.abs(split.directNormal - direct)).toBeLessThan(1e-5);
  });
});
