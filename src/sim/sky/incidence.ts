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
  return cosIncidenceOf(
    Math.cos(tilt),
    Math.sin(tilt),
    Math.cos(zenithDeg * RAD),
    Math.sin(zenithDeg * RAD),
    Math.cos((sunAzimuth - surfaceAzimuth) * RAD),
  );
}

/** The same from sines and cosines; `cosTurn` is the cosine of the sun's less the surface's azimuth. */
export function cosIncidenceOf(
  cosTilt: number,
  sinTilt: number,
  cosZenith: number,
  sinZenith: number,
  cosTurn: number,
): number {
  return cosTilt * cosZenith + sinTilt * sinZenith * cosTurn;
}

/** Angle of incidence, 0 to 180 [°]; parameters as of `cosIncidence`. */
export function incidenceDeg(
  tiltDeg: number,
  surfaceAzimuth: number,
  zenithDeg: number,
  sunAzimuth: number,
): number {
  const cosine = cosIncidence(tiltDeg, surfaceAzimuth, zenithDeg, sunAzimuth);
  return Math.acos(Math.min(1, Math.max(-1, cosine))) / RAD;
}
