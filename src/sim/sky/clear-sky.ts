/**
 * Clear-sky global horizontal irradiance from the sun's height alone: 1098·cos z·e^(−0.059/cos z).
 * @param cosZenith cosine of the zenith angle
 * @returns [W/m²]; 0 with the sun down
 * Source: Haurwitz, Journal of Meteorology 2, 1945, 154-166, with the constant 0.059.
 */
export function clearSkyGlobal(cosZenith: number): number {
  return cosZenith <= 0 ? 0 : 1098 * cosZenith * Math.exp(-0.059 / cosZenith);
}
