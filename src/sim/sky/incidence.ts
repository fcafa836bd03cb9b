const RAD = Math.PI / 180;

/**
 * Cosine of the angle between the sun's rays and a plane's normal.
 * @param tiltDeg         0 flat, 90 upright [°]
 * @param surfaceAzimuth  the way it faces, clockwise from north [°]
 * @returns -1 to 1; negative: the sun is behind the plane
 * Source: Duffie and Beckman, Solar Engineering of Thermal Processes, 4th ed. 2013, section 1.6.
 */
export function cosIncidence(
  tiltDeg: number,
  surfaceAzimuth: number,
  zenithDeg: number,
  sunAzimuth: number,
): number {
  const tilt = tiltDeg * RAD;
  const zenith = zenithDeg * RAD;
  return (
    Math.cos(tilt) * Math.cos(zenith) +
    Math.sin(tilt) * Math.sin(zenith) * Math.cos((sunAzimuth - surfaceAzimuth) * RAD)
  );
}

/**
 * Share of direct irradiance that passes the glass at an angle: 1 − b0·(1/cos − 1).
 * @param cosine cosine of the angle of incidence
 * @param b0 0.05 is common practice for one glass cover
 * @returns 0 to 1
 * Source: Souka and Safwat, Solar Energy 10(4), 1966, as adopted by ASHRAE 93 (from memory).
 */
export function incidenceModifier(cosine: number, b0 = 0.05): number {
  if (cosine <= 0.02) return 0;
  return Math.max(0, 1 - b0 * (1 / cosine - 1));
}
