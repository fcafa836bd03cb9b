import { dayOfYearUtc } from './day-of-year.ts';
import { extraterrestrialNormal } from './extraterrestrial.ts';
import { meanHourAngle, sunCoordinatesInto, wrapped } from './sun-coordinates.ts';
import { azimuthDeg, PARALLAX } from './sun-position.ts';

const RAD = Math.PI / 180;

/** Where the sun stands in each step of a time axis, worked out once for all planes of a site. */
export interface SunPath {
  /** cosine of the true zenith angle at the middle of the step's sunlit part; 0 in steps without sun */
  cosZenith: Float64Array;
  /** at the same instant, clockwise from north, 0 to below 360 [°]; at the step's middle in steps without sun */
  azimuthDeg: Float64Array;
  /** extraterrestrial normal irradiance [W/m²] */
  extraNormal: Float64Array;
  /** share of the step with the sun's centre above the true horizon, 0 to 1 */
  sunlit: Float64Array;
}

/** The sun's path over `count` steps in new arrays; see `sunPathInto`. */
export function sunPath(
  startS: number,
  stepMin: number,
  count: number,
  latDeg: number,
  lonDeg: number,
): SunPath {
  const path: SunPath = {
    cosZenith: new Float64Array(count),
    azimuthDeg: new Float64Array(count),
    extraNormal: new Float64Array(count),
    sunlit: new Float64Array(count),
  };
  sunPathInto(path, startS, stepMin, latDeg, lonDeg);
  return path;
}

/** Declination and equation of time are worked out this often [s]; straight lines between are good to 0.00002°. */
const NODE_S = 10800;

/**
 * The sun's path over an axis, for means over steps. A step's position is taken at its middle; where the sun is up
 * for only part of a step (it rises, sets, or both), at the middle of that part, so that a long step does not put
 * the beam on or below the horizon. Rising and setting are those of the sun's centre at the true horizon, without
 * refraction. (Where the sun dips below the horizon within one step, the longer part counts.)
 * @param out     written; the length of its arrays is the number of steps
 * @param startS  start of the first step [s since 1970-01-01T00:00Z]
 * @param stepMin length of a step [min], 1 to 60
 * @param latDeg  latitude, north positive [°], −90 to 90
 * @param lonDeg  longitude, east positive [°]
 * Errors: none.
 * Source: see `sunCoordinatesInto` and `extraterrestrialNormal`.
 */
export function sunPathInto(
  out: SunPath,
  startS: number,
  stepMin: number,
  latDeg: number,
  lonDeg: number,
): void {
  const stepS = stepMin * 60;
  const width = (2 * Math.PI * stepS) / 86400;
  const sinLat = Math.sin(latDeg * RAD);
  const cosLat = Math.cos(latDeg * RAD);
  const slow = new SlowPart(startS);
  const lit = new Float64Array(2);
  let day = Number.NaN;
  let extra = 0;
  for (let i = 0; i < out.cosZenith.length; i++) {
    const midS = startS + (i + 0.5) * stepS;
    slow.moveTo(midS);
    let hourAngle = meanHourAngle(midS) + slow.equationOfTime + lonDeg * RAD;
    const high = sinLat * slow.sinDeclination;
    const reach = cosLat * slow.cosDeclination;
    let cosZenith = high + reach * Math.cos(hourAngle);
    let sunlit = cosZenith > PARALLAX ? 1 : 0;
    // within half a step's travel of the horizon
    if (Math.abs(cosZenith - PARALLAX) <= (reach * width) / 2) {
      litPartInto(lit, wrapped(hourAngle), width, (PARALLAX - high) / reach);
      sunlit = lit[0];
      if (sunlit > 0) hourAngle = lit[1];
      cosZenith = high + reach * Math.cos(hourAngle);
    }
    if (Math.floor(midS / 86400) !== day) {
      day = Math.floor(midS / 86400);
      extra = extraterrestrialNormal(dayOfYearUtc(midS));
    }
    out.sunlit[i] = sunlit;
    out.cosZenith[i] = sunlit > 0 ? Math.max(0, cosZenith - PARALLAX * (1 - cosZenith * cosZenith)) : 0;
    out.azimuthDeg[i] = azimuthDeg(
      sinLat,
      cosLat,
      slow.sinDeclination / slow.cosDeclination,
      Math.sin(hourAngle),
      Math.cos(hourAngle),
    );
    out.extraNormal[i] = extra;
  }
}

/** What of the sun's place changes slowly, on straight lines between nodes. */
class SlowPart {
  equationOfTime = 0;
  sinDeclination = 0;
  cosDeclination = 1;
  readonly #from = new Float64Array(2);
  readonly #to = new Float64Array(2);
  #nodeS: number;

  constructor(startS: number) {
    this.#nodeS = startS;
    sunCoordinatesInto(this.#from, startS);
    sunCoordinatesInto(this.#to, startS + NODE_S);
  }

  /** Instants must not go back. */
  moveTo(atS: number): void {
    while (atS > this.#nodeS + NODE_S) {
      this.#nodeS += NODE_S;
      this.#from.set(this.#to);
      sunCoordinatesInto(this.#to, this.#nodeS + NODE_S);
    }
    const part = (atS - this.#nodeS) / NODE_S;
    const declination = this.#from[0] + part * (this.#to[0] - this.#from[0]);
    this.sinDeclination = Math.sin(declination);
    this.cosDeclination = Math.sqrt(1 - this.sinDeclination * this.sinDeclination);
    this.equationOfTime = this.#from[1] + part * (this.#to[1] - this.#from[1]);
  }
}

/**
 * The part of a step in which the sun is up: the sun is above the horizon while its hour angle is within that of
 * sunset of noon, whose cosine is `cosSunset`.
 * @param out   written: [0] share of the step, [1] hour angle in the middle of the longest part [rad]
 * @param middle hour angle in the step's middle, −π to π; `width` of the step [rad]
 */
function litPartInto(out: Float64Array, middle: number, width: number, cosSunset: number): void {
  const sunset = Math.acos(Math.min(1, Math.max(-1, cosSunset)));
  let longest = 0;
  let total = 0;
  for (let noon = -2 * Math.PI; noon <= 2 * Math.PI; noon += 2 * Math.PI) {
    const from = Math.max(middle - width / 2, noon - sunset);
    const to = Math.min(middle + width / 2, noon + sunset);
    if (to <= from) continue;
    total += to - from;
    if (to - from <= longest) continue;
    longest = to - from;
    out[1] = (from + to) / 2;
  }
  out[0] = Math.min(1, total / width);
}
