import { meanHourAngle, sunCoordinatesInto, wrapped } from './sun-coordinates.ts';

const RAD = Math.PI / 180;
const DAY_S = 86400;

/** Altitude of the sun's centre when its upper edge is seen on the horizon: refraction 34', half width 16' [°]. */
const RISE_ALTITUDE_DEG = -0.8333;

/** Declination of the sun, north positive [°]. Source: see `sunCoordinatesInto`. */
export function declinationDeg(unixS: number): number {
  const out = new Float64Array(2);
  sunCoordinatesInto(out, unixS);
  return out[0] / RAD;
}

/** Equation of time: apparent less mean solar time [min], −15 to 17. Source: see `sunCoordinatesInto`. */
export function equationOfTimeMin(unixS: number): number {
  const out = new Float64Array(2);
  sunCoordinatesInto(out, unixS);
  return (out[1] / RAD) * 4;
}

/** When the sun rises and sets about one noon; null where it does not. */
export interface SunTimes {
  /** instants [s since 1970-01-01T00:00Z] */
  noonS: number;
  riseS: number | null;
  setS: number | null;
  /** 0 in a polar night, 24 in a polar day */
  daylightH: number;
}

/**
 * Rise before and set after the noon that lies nearest to an instant.
 * @param nearS  [s since 1970-01-01T00:00Z]
 * @param latDeg latitude, north positive [°]
 * @param lonDeg longitude, east positive [°]
 * @param altitudeDeg altitude of the sun's centre that counts as rising [°]; 0 for the geometric horizon
 * Accuracy: about a second where the sun crosses the horizon at a good angle.
 * Source: see `sunCoordinatesInto`; altitude as in Reda and Andreas, NREL/TP-560-34302, rev. 2008, appendix A.2.
 */
export function sunTimes(
  nearS: number,
  latDeg: number,
  lonDeg: number,
  altitudeDeg = RISE_ALTITUDE_DEG,
): SunTimes {
  const noonS = crossing(nearS, lonDeg, () => 0) ?? nearS;
  const angle = (declination: number) => riseAngle(latDeg * RAD, declination, altitudeDeg * RAD);
  const riseS = crossing(noonS, lonDeg, (declination) => -angle(declination));
  const setS = crossing(noonS, lonDeg, angle);
  if (riseS !== null && setS !== null) return { noonS, riseS, setS, daylightH: (setS - riseS) / 3600 };
  const out = new Float64Array(2);
  sunCoordinatesInto(out, noonS);
  const noonAltitude = Math.PI / 2 - Math.abs(latDeg * RAD - out[0]);
  return { noonS, riseS, setS, daylightH: noonAltitude > altitudeDeg * RAD ? 24 : 0 };
}

/** Hour angle at which the sun stands at an altitude in the afternoon; NaN where it never does. */
function riseAngle(lat: number, declination: number, altitude: number): number {
  const cosine =
    (Math.sin(altitude) - Math.sin(lat) * Math.sin(declination)) / (Math.cos(lat) * Math.cos(declination));
  return Math.acos(cosine);
}

/**
 * Instant near another at which the hour angle is that of `angle(declination)`, by walking there and looking again;
 * null where there is none.
 */
function crossing(nearS: number, lonDeg: number, angle: (declination: number) => number): number | null {
  const out = new Float64Array(2);
  let atS = nearS;
  for (let round = 0; round < 6; round++) {
    sunCoordinatesInto(out, atS);
    const hourAngle = meanHourAngle(atS) + out[1] + lonDeg * RAD;
    const turn = angle(out[0]) - wrapped(hourAngle);
    // the first step goes the whole way from noon; later ones only correct, and must not jump by a day
    atS += ((round === 0 ? turn : wrapped(turn)) / (2 * Math.PI)) * DAY_S;
  }
  return Number.isFinite(atS) ? atS : null;
}
