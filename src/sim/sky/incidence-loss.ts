const RAD = Math.PI / 180;

/** Incidence coefficient of one flat glass cover; common practice. */
export const GLASS_B0 = 0.05;

/**
 * Share of direct irradiance that passes the glass at an angle, of what passes at right angles:
 * 1 − b0·(1/cos − 1).
 * @param cosine cosine of the angle of incidence
 * @param b0 0 for no loss
 * @returns 0 to 1
 * Source: Souka and Safwat, Solar Energy 10(4), 1966, as adopted by ASHRAE 93 (from memory).
 */
export function incidenceModifier(cosine: number, b0 = GLASS_B0): number {
  if (cosine <= 0) return 0;
  return Math.max(0, 1 - b0 * (1 / cosine - 1));
}

/**
 * The same for light from all over the sky, taken at one angle that stands for it.
 * @param tiltDeg tilt of the plane, 0 to 90 [°]
 * Source: Brandemuehl and Beckman, Solar Energy 24(5), 1980, as in Duffie and Beckman, 4th ed. 2013, eq. 5.4.2
 * (from memory): 59.7 − 0.1388·tilt + 0.001497·tilt².
 */
export function skyModifier(tiltDeg: number, b0 = GLASS_B0): number {
  return incidenceModifier(Math.cos((59.7 - 0.1388 * tiltDeg + 0.001497 * tiltDeg * tiltDeg) * RAD), b0);
}

/**
 * The same for light from the ground: at 90 − 0.5788·tilt + 0.002693·tilt².
 * Source: as of `skyModifier`, eq. 5.4.1 (from memory).
 */
export function groundModifier(tiltDeg: number, b0 = GLASS_B0): number {
  return incidenceModifier(Math.cos((90 - 0.5788 * tiltDeg + 0.002693 * tiltDeg * tiltDeg) * RAD), b0);
}
