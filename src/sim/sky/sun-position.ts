const RAD = Math.PI / 180;

/** Where the sun stands, without refraction. */
export interface SunPosition {
  /** true zenith angle [°] */
  zenithDeg: number;
  /** clockwise from north, 0 to 360 [°] */
  azimuthDeg: number;
}

/**
 * Sun position seen from a place, without refraction, parallax included.
 * @param unixS   seconds since 1970-01-01T00:00Z
 * @param latDeg  latitude, north positive [°]
 * @param lonDeg  longitude, east positive [°]
 * Accuracy: within 0.02° of the SPA worked example and of an ephemeris over a year (tests/references).
 * Errors: none.
 * Source: low-accuracy solar coordinates of J. Meeus, Astronomical Algorithms, 2nd ed. 1998, ch. 25, with
 * sidereal time of ch. 12 (from memory).
 */
export function sunPosition(unixS: number, latDeg: number, lonDeg: number): SunPosition {
  const { rightAscension, declination } = sunCoordinates(unixS);
  const hourAngle = siderealTimeDeg(unixS) * RAD + lonDeg * RAD - rightAscension;
  const lat = latDeg * RAD;
  const sinAltitude =
    Math.sin(lat) * Math.sin(declination) + Math.cos(lat) * Math.cos(declination) * Math.cos(hourAngle);
  const azimuth = Math.atan2(
    Math.sin(hourAngle),
    Math.cos(hourAngle) * Math.sin(lat) - Math.tan(declination) * Math.cos(lat),
  );
  const geocentric = Math.acos(Math.min(1, Math.max(-1, sinAltitude)));
  // horizontal parallax of the sun, 8.794"
  const zenithDeg = geocentric / RAD + (8.794 / 3600) * Math.sin(geocentric);
  return { zenithDeg, azimuthDeg: (((azimuth / RAD + 180) % 360) + 360) % 360 };
}

/** Centuries since J2000.0; the difference of dynamical and universal time is taken as 69 s. */
function centuries(unixS: number): number {
  return ((unixS + 69) / 86400 + 2440587.5 - 2451545) / 36525;
}

/** Apparent geocentric right ascension and declination [rad]. */
function sunCoordinates(unixS: number): { rightAscension: number; declination: number } {
  const t = centuries(unixS);
  const meanLongitude = 280.46646 + t * (36000.76983 + t * 0.0003032);
  const anomaly = (357.52911 + t * (35999.05029 - t * 0.0001537)) * RAD;
  const centre =
    (1.914602 - t * (0.004817 + t * 0.000014)) * Math.sin(anomaly) +
    (0.019993 - 0.000101 * t) * Math.sin(2 * anomaly) +
    0.000289 * Math.sin(3 * anomaly);
  const node = (125.04 - 1934.136 * t) * RAD;
  // aberration and the main term of nutation
  const longitude = (meanLongitude + centre - 0.00569 - 0.00478 * Math.sin(node)) * RAD;
  const obliquity = (23.4392911 - 0.0130042 * t + 0.00256 * Math.cos(node)) * RAD;
  return {
    rightAscension: Math.atan2(Math.cos(obliquity) * Math.sin(longitude), Math.cos(longitude)),
    declination: Math.asin(Math.sin(obliquity) * Math.sin(longitude)),
  };
}

/** Greenwich mean sidereal time [°]. */
function siderealTimeDeg(unixS: number): number {
  const days = unixS / 86400 + 2440587.5 - 2451545;
  return (280.46061837 + 360.98564736629 * days) % 360;
}
