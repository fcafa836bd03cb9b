/**
 * Clear-sky global horizontal irradiance from the sun's height alone: 1098·cos z·e^(−0.059/cos z).
 * @param cosZenith cosine of the zenith angle
 * @returns [W/m²]; 0 with the sun down
 * Source: Haurwitz, Journal of Meteorology 2, 1945, 154-166, with the constant 0.059.
 */
export function clearSkyGlobal(cosZenith: number): number {
  return cosZenith <= 0 ? 0 : 1098 * cosZenith * Math.exp(-0.059 / cosZenith);
}

/** Irradiance under a clear sky [W/m²]. */
export interface ClearSky {
  global: number;
  directNormal: number;
  diffuse: number;
}

/**
 * Clear-sky irradiance with a given haze.
 * @param cosZenith   cosine of the apparent zenith angle
 * @param airmass     absolute optical air mass (relative times pressure over that at sea level), >= 1 or so
 * @param linke       Linke turbidity for an air mass of 2, 2 (clean and dry) to 7 (hazy)
 * @param altitudeM   height above the sea [m]
 * @param extraNormal extraterrestrial normal irradiance [W/m²]
 * @returns all 0 with the sun down; global = direct·cos z + diffuse
 * Source: Ineichen and Perez, Solar Energy 73(3), 2002.
 */
export function hazyClearSky(
  cosZenith: number,
  airmass: number,
  linke: number,
  altitudeM: number,
  extraNormal: number,
): ClearSky {
  if (cosZenith <= 0) return { global: 0, directNormal: 0, diffuse: 0 };
  const fh1 = Math.exp(-altitudeM / 8000);
  const fh2 = Math.exp(-altitudeM / 1250);
  const cg1 = 5.09e-5 * altitudeM + 0.868;
  const cg2 = 3.92e-5 * altitudeM + 0.0387;
  const global = cg1 * extraNormal * cosZenith * Math.exp(-cg2 * airmass * (fh1 + fh2 * (linke - 1)));
  const beam = (0.664 + 0.163 / fh1) * extraNormal * Math.exp(-0.09 * airmass * (linke - 1));
  // the beam may not leave less diffuse light than so clean a sky scatters
  const leastDiffuseFrac = (0.1 - 0.2 * Math.exp(-linke)) / (0.1 + 0.882 / fh1);
  const directNormal = Math.min(beam, (global * Math.max(0, 1 - leastDiffuseFrac)) / cosZenith);
  return { global, directNormal, diffuse: global - directNormal * cosZenith };
}

/**
 * Daily global irradiation under a clear sky, in the unit of `outsideMj`.
 * @param outsideMj daily extraterrestrial irradiation [MJ/m²]
 * @param altitudeM height above the sea [m]
 * Source: FAO Irrigation and Drainage Paper 56, 1998, equation 37.
 */
export function clearDayMj(outsideMj: number, altitudeM: number): number {
  return (0.75 + 2e-5 * altitudeM) * outsideMj;
}

/**
 * Daily global irradiation from hours of bright sunshine, in the unit of `outsideMj`.
 * @param sunshineH 0 to `daylightH`
 * Source: FAO Irrigation and Drainage Paper 56, 1998, equation 35, with its 0.25 and 0.50.
 */
export function dayFromSunshineMj(outsideMj: number, sunshineH: number, daylightH: number): number {
  return (0.25 + (0.5 * sunshineH) / daylightH) * outsideMj;
}
