import { LEAST_COS_ZENITH, splitGlobal } from './diffuse-split.ts';
import { extraterrestrialNormal } from './extraterrestrial.ts';
import { cosIncidence, incidenceModifier } from './incidence.ts';
import { sunPosition } from './sun-position.ts';
import { groundReflected, hayDavies } from './transposition.ts';

const RAD = Math.PI / 180;

/** Where the sun stands in each step of a time axis, worked out once for all planes of a site. */
export interface SunPath {
  /** cosine of the zenith angle at the middle of the step's sunlit part; 0 in steps without sun */
  cosZenith: Float64Array;
  zenithDeg: Float64Array;
  azimuthDeg: Float64Array;
  /** extraterrestrial normal irradiance [W/m²] */
  extraNormal: Float64Array;
  /** share of the step with the sun above the horizon, 0 to 1 */
  sunlit: Float64Array;
}

/** A plane and what stands around it. */
export interface Plane {
  tiltDeg: number;
  /** the way it faces, clockwise from north [°] */
  azimuthDeg: number;
  albedo: number;
}

/** The irradiance series of a site; direct and diffuse may be missing, then the global is split. */
export interface Irradiance {
  globalWPerM2: Float64Array;
  directWPerM2: Float64Array | null;
  diffuseWPerM2: Float64Array | null;
}

/**
 * The sun's path over an axis. A step's position is taken at its middle; a step in which the sun rises or sets
 * takes the middle of its sunlit part, so that long steps do not put the beam below or on the horizon.
 * A year of hours takes a few milliseconds, a year of minutes about a quarter of a second.
 */
export function sunPath(
  startS: number,
  stepMin: number,
  count: number,
  latDeg: number,
  lonDeg: number,
): SunPath {
  const path: SunPath = {
    cosZenith: new Float64Array(count),
    zenithDeg: new Float64Array(count),
    azimuthDeg: new Float64Array(count),
    extraNormal: new Float64Array(count),
    sunlit: new Float64Array(count),
  };
  const stepS = stepMin * 60;
  for (let i = 0; i < count; i++) {
    const fromS = startS + i * stepS;
    const midS = fromS + stepS / 2;
    let { zenithDeg, azimuthDeg } = sunPosition(midS, latDeg, lonDeg);
    let sunlit = zenithDeg < 90 ? 1 : 0;
    if (stepMin > 1 && Math.abs(zenithDeg - 90) < 0.25 * stepMin) {
      const lit = sunlitPart(fromS, stepS, latDeg, lonDeg);
      sunlit = lit.share;
      ({ zenithDeg, azimuthDeg } = sunPosition(lit.midS, latDeg, lonDeg));
    }
    path.sunlit[i] = sunlit;
    path.zenithDeg[i] = zenithDeg;
    path.azimuthDeg[i] = azimuthDeg;
    path.cosZenith[i] = sunlit > 0 ? Math.max(0, Math.cos(zenithDeg * RAD)) : 0;
    path.extraNormal[i] = extraterrestrialNormal(dayOfYearUtc(midS));
  }
  return path;
}

/** Middle and share of the part of a step with the sun above the horizon, by sampling it. */
function sunlitPart(fromS: number, stepS: number, latDeg: number, lonDeg: number) {
  const samples = 12;
  let lit = 0;
  let sum = 0;
  for (let j = 0; j < samples; j++) {
    const atS = fromS + ((j + 0.5) * stepS) / samples;
    if (sunPosition(atS, latDeg, lonDeg).zenithDeg >= 90) continue;
    lit++;
    sum += atS;
  }
  return { share: lit / samples, midS: lit > 0 ? sum / lit : fromS + stepS / 2 };
}

function dayOfYearUtc(unixS: number): number {
  const day = Math.floor(unixS / 86400);
  // years are counted in the 400-year cycle of the calendar
  const year = 1970 + Math.floor((day + 0.5) / 365.2425);
  const start = daysToYear(year);
  if (day < start) return day - daysToYear(year - 1) + 1;
  const next = daysToYear(year + 1);
  return day >= next ? day - next + 1 : day - start + 1;
}

/** Days from 1970-01-01 to the first of January of a year. */
function daysToYear(year: number): number {
  const y = year - 1;
  return 365 * (year - 1970) + Math.floor(y / 4) - Math.floor(y / 100) + Math.floor(y / 400) - 477;
}

/**
 * Plane-of-array irradiance that reaches the cells, by Hay and Davies with the incidence loss of the direct part.
 * The direct beam is cut off with the sun less than 3° above the horizon (the measured global is then counted as
 * diffuse), and the sum of direct and diffuse on the plane never exceeds the extraterrestrial normal.
 * @param out written: [W/m²], >= 0, as long as the path
 */
export function planeOfArrayInto(out: Float64Array, path: SunPath, sky: Irradiance, plane: Plane): void {
  const { tiltDeg, azimuthDeg, albedo } = plane;
  for (let i = 0; i < out.length; i++) {
    const global = Math.max(0, sky.globalWPerM2[i]);
    if (global === 0 && !(sky.diffuseWPerM2 && sky.diffuseWPerM2[i] > 0)) {
      out[i] = 0;
      continue;
    }
    const cosZenith = path.cosZenith[i];
    const extra = path.extraNormal[i];
    let diffuse: number;
    let direct: number;
    if (sky.directWPerM2 && sky.diffuseWPerM2) {
      diffuse = Math.max(0, sky.diffuseWPerM2[i]);
      direct = cosZenith < LEAST_COS_ZENITH ? 0 : Math.min(extra, Math.max(0, sky.directWPerM2[i]));
    } else {
      const split = splitGlobal(global, cosZenith, extra);
      diffuse = split.diffuse;
      direct = Math.min(extra, split.directNormal);
    }
    const cosine = cosIncidence(tiltDeg, azimuthDeg, path.zenithDeg[i], path.azimuthDeg[i]);
    const passed = incidenceModifier(cosine);
    const sky2 = hayDavies(tiltDeg, diffuse, direct, extra, cosine, Math.max(cosZenith, LEAST_COS_ZENITH));
    const beam = (direct * Math.max(0, cosine) + sky2.circumsolar) * passed;
    out[i] = Math.min(extra, beam + sky2.isotropic) + groundReflected(tiltDeg, global, albedo);
  }
}
