import { describe, expect, it } from 'vitest';
import { clearSkyGlobal, hazyClearSky } from '../../src/sim/sky/clear-sky.ts';

const cosDeg = (deg: number) => Math.cos((deg * Math.PI) / 180);

describe('clear sky', () => {
  // Haurwitz 1945 with 0.059, published test expectations (seen, recomputed)
  it.each([
    [5, 48.629869],
    [10, 135.741748],
    [30, 487.894133],
    [50, 778.766689],
    [90, 1035.092033],
  ])('Haurwitz, sun %d° high', (elevation, global) => {
    expect(Math.abs(clearSkyGlobal(cosDeg(90 - elevation)) - global)).toBeLessThan(1e-5);
  });

  // Ineichen and Perez 2002, Linke turbidity 3, 1364 W/m², published test expectations (seen, recomputed)
  it.each([
    [10, 1, 0, 1038.159219, 942.208186, 110.265293],
    [10, 1, 2000, 1134.243124, 994.953778, 154.404929],
    [46.0467599, 1.32355476, 0, 704.696813, 888.90147, 87.736013],
  ])(
    'Ineichen and Perez, zenith %d, air mass %d, %d m',
    (zenith, airmass, altitude, global, direct, diffuse) => {
      const sky = hazyClearSky(cosDeg(zenith), airmass, 3, altitude, 1364);
      expect(Math.abs(sky.global - global)).toBeLessThan(1e-4);
      expect(Math.abs(sky.directNormal - direct)).toBeLessThan(1e-4);
      expect(Math.abs(sky.diffuse - diffuse)).toBeLessThan(1e-4);
    },
  );

  it('is dark with the sun down', () => {
    expect(clearSkyGlobal(-0.1)).toBe(0);
    expect(hazyClearSky(0, 38, 3, 0, 1364)).toEqual({ global: 0, directNormal: 0, diffuse: 0 });
  });
});
