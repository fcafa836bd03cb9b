import { meanHourAngle, sunCoordinatesInto } from './sun-coordinates.ts';

const RAD = Math.PI / 180;

/** Horizontal parallax of the sun, 8.794" [rad]: how much nearer the horizon it stands for us than for the Earth's centre. */
export const PARALLAX = (8.794 / 3600) * RAD;

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
 * Accuracy: within 0.004° of an ephemeris from 2000 to 2050 (tests/references).
 * Errors: none.
 * Source: see `sunCoordinatesInto`.
 */
export function sunPosition(unixS: number, latDeg: number, lonDeg: number): SunPosition {
  const out = new Float64Array(2);
  sunPositionInto(out, unixS, latDeg, lonDeg);
  return { zenithDeg: out[0], azimuthDeg: out[1] };
}

/** The same without allocating. @param out written: [0] true zenith angle [°], [1] azimuth clockwise from north [°] */
export function sunPositionInto(out: Float64Array, unixS: number, latDeg: number, lonDeg: number): void {
  sunCoordinatesInto(out, unixS);
  horizontalInto(out, latDeg * RAD, out[0], meanHourAngle(unixS) + out[1] + lonDeg * RAD);
  out[0] += (PARALLAX / RAD) * Math.sin(out[0] * RAD);
}

/**
 * Sun position at an hour angle, as textbook examples give it.
 * @param declinationDeg north positive [°]
 * @param hourAngleDeg   0 at noon, afternoon positive, 15° an hour [°]
 * Source: Duffie and Beckman, Solar Engineering of Thermal Processes, 4th ed. 2013, section 1.6.
 */
export function sunAtHourAngle(latDeg: number, declinationDeg: number, hourAngleDeg: number): SunPosition {
  const out = new Float64Array(2);
  horizontalInto(out, latDeg * RAD, declinationDeg * RAD, hourAngleDeg * RAD);
  return { zenithDeg: out[0], azimuthDeg: out[1] };
}

/** Zenith angle and azimuth [°] of a direction given by declination and hour angle [rad]. */
function horizontalInto(out: Float64Array, lat: number, declination: number, hourAngle: number): void {
  const cosZenith =
    Math.sin(lat) * Math.sin(declination) + Math.cos(lat) * Math.cos(declination) * Math.cos(hourAngle);
  out[0] = Math.acos(Math.min(1, Math.max(-1, cosZenith))) / RAD;
  out[1] = azimuthDeg(
    Math.sin(lat),
    Math.cos(lat),
    Math.tan(declination),
    Math.sin(hourAngle),
    Math.cos(hourAngle),
  );
}

/**
 * Azimuth from the sines and cosines that a loop over many steps already has.
 * @returns clockwise from north, 0 to below 360 [°]
 */
export function azimuthDeg(
  sinLat: number,
  cosLat: number,
  tanDeclination: number,
  sinHour: number,
  cosHour: number,
): number {
  const fromNorth = Math.atan2(sinHour, cosHour * sinLat - tanDeclination * cosLat) / RAD + 180;
  return fromNorth >= 360 ? fromNorth - 360 : fromNorth;
}
