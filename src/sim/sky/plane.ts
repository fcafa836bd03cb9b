import { relativeAirmass } from './airmass.ts';
import { LEAST_COS_ZENITH } from './diffuse-split.ts';
import { directAndDiffuseInto } from './direct-and-diffuse.ts';
import { type Horizon, isBehindHorizon } from './horizon.ts';
import { cosIncidenceOf } from './incidence.ts';
import { GLASS_B0, groundModifier, incidenceModifier, skyModifier } from './incidence-loss.ts';
import { perezSkyInto } from './perez-sky.ts';
import type { SunPath } from './sun-path.ts';
import { groundReflected, hayDavies, isotropicSky } from './transposition.ts';

export { type SunPath, sunPath } from './sun-path.ts';

const RAD = Math.PI / 180;

/** How the brightness of the sky is spread. */
export type SkyModel = 'isotropic' | 'hay-davies' | 'perez';

/** A plane and what stands around it. */
export interface Plane {
  /** 0 flat, 90 upright [°] */
  tiltDeg: number;
  /** the way it faces, clockwise from north [°] */
  azimuthDeg: number;
  /** share of the global irradiance that the ground reflects, 0 to 1 */
  albedo: number;
  /** Hay and Davies unless told otherwise */
  model?: SkyModel;
  /** incidence loss coefficient of the cover; 0.05 unless told otherwise, 0 for the irradiance before the cover */
  incidenceB0?: number;
  /** blocks the direct beam and the bright patch around the sun */
  horizon?: Horizon | null;
  /** share of an even sky's light that the horizon leaves (`skyLeftFrac`); 1 unless told otherwise */
  skyFrac?: number;
}

/**
 * The irradiance series of a site, means over steps [W/m²]. Direct (normal) and diffuse (horizontal) may be null, or
 * NaN in single steps: what is missing is worked out from the global; see `directAndDiffuseInto`.
 */
export interface Irradiance {
  globalWPerM2: Float64Array;
  directWPerM2: Float64Array | null;
  diffuseWPerM2: Float64Array | null;
}

/** What the loop over steps needs of a plane, and room for one step's parts. */
interface Prepared {
  tiltDeg: number;
  cosTilt: number;
  sinTilt: number;
  azimuthDeg: number;
  model: SkyModel;
  b0: number;
  skyPasses: number;
  /** direct and diffuse irradiance of the step */
  parts: Float64Array;
  /** sky parts of Perez */
  perez: Float64Array;
}

/**
 * Plane-of-array irradiance that reaches the cells: direct, sky and ground parts, each less its incidence loss.
 * What is above the plane never gives more than the extraterrestrial normal, or the measured global if that is
 * larger (bright cloud edges). How the direct beam is limited at low sun: see `directAndDiffuseInto`. A horizon is looked
 * at in the middle of a step's sunlit part; the light from the rest of the sky is cut to `skyFrac`, that from the
 * ground stays as it is; the global irradiance is taken as that of the open site.
 * @param out  written: [W/m²], finite, >= 0, as long as the path
 * @param path the sun in the same steps; may serve many planes
 * @returns number of steps with global irradiance that was split for want of direct and diffuse
 * Errors: throws where a global irradiance is not a finite number: gaps are filled where files are read.
 */
export function planeOfArrayInto(out: Float64Array, path: SunPath, sky: Irradiance, plane: Plane): number {
  const prepared = prepare(plane);
  const { tiltDeg, b0, parts } = prepared;
  const { globalWPerM2, directWPerM2, diffuseWPerM2 } = sky;
  const groundPasses = groundModifier(tiltDeg, b0);
  const horizon = plane.horizon ?? null;
  let split = 0;
  for (let i = 0; i < out.length; i++) {
    const global = Math.max(0, globalWPerM2[i]);
    if (!(global < Number.POSITIVE_INFINITY)) throw new Error(`global irradiance of step ${i}: ${global}`);
    const direct = directWPerM2 === null ? Number.NaN : directWPerM2[i];
    const diffuse = diffuseWPerM2 === null ? Number.NaN : diffuseWPerM2[i];
    if (global === 0 && !(direct > 0) && !(diffuse > 0)) {
      out[i] = 0;
      continue;
    }
    const cosZenith = path.cosZenith[i];
    const extra = path.extraNormal[i];
    const wasSplit = directAndDiffuseInto(parts, global, direct, diffuse, cosZenith, path.sunlit[i], extra);
    if (wasSplit) split++;
    const isBlocked = horizon !== null && isBehindHorizon(horizon, cosZenith, path.azimuthDeg[i]);
    const above = fromAbove(prepared, cosZenith, path.azimuthDeg[i], extra * path.sunlit[i], isBlocked);
    const below = groundReflected(tiltDeg, global, plane.albedo) * groundPasses;
    out[i] = Math.min(above, Math.max(extra, global)) + below;
  }
  return split;
}

function prepare(plane: Plane): Prepared {
  const b0 = plane.incidenceB0 ?? GLASS_B0;
  return {
    tiltDeg: plane.tiltDeg,
    cosTilt: Math.cos(plane.tiltDeg * RAD),
    sinTilt: Math.sin(plane.tiltDeg * RAD),
    azimuthDeg: plane.azimuthDeg,
    model: plane.model ?? 'hay-davies',
    b0,
    skyPasses: skyModifier(plane.tiltDeg, b0) * (plane.skyFrac ?? 1),
    parts: new Float64Array(2),
    perez: new Float64Array(3),
  };
}

/**
 * Direct and sky irradiance of one step behind the cover [W/m²], from direct and diffuse in `parts`.
 * @param extra extraterrestrial normal irradiance, mean over the step [W/m²]; 0 without sun
 */
function fromAbove(
  plane: Prepared,
  cosZenith: number,
  sunAzimuth: number,
  extra: number,
  isBlocked: boolean,
): number {
  const { tiltDeg, parts, perez } = plane;
  const direct = parts[0];
  const diffuse = parts[1];
  // without a beam there is no bright patch around the sun to speak of
  if (direct <= 0 || plane.model === 'isotropic' || extra <= 0) {
    const sky = isotropicSky(tiltDeg, diffuse) * plane.skyPasses;
    if (direct <= 0 || isBlocked) return sky;
    const cosine = cosIncidenceAt(plane, cosZenith, sunAzimuth);
    return sky + direct * Math.max(0, cosine) * incidenceModifier(cosine, plane.b0);
  }
  const cosine = cosIncidenceAt(plane, cosZenith, sunAzimuth);
  let scattered: number;
  let circumsolar: number;
  if (plane.model === 'perez') {
    const zenithDeg = Math.acos(cosZenith) / RAD;
    perezSkyInto(perez, tiltDeg, diffuse, direct, extra, cosine, zenithDeg, relativeAirmass(zenithDeg));
    scattered = Math.max(0, perez[0] + perez[2]);
    circumsolar = perez[1];
  } else {
    const sky = hayDavies(tiltDeg, diffuse, direct, extra, cosine, Math.max(cosZenith, LEAST_COS_ZENITH));
    scattered = sky.isotropic;
    circumsolar = sky.circumsolar;
  }
  if (isBlocked) return scattered * plane.skyPasses;
  const beam = (direct * Math.max(0, cosine) + circumsolar) * incidenceModifier(cosine, plane.b0);
  return beam + scattered * plane.skyPasses;
}

function cosIncidenceAt(plane: Prepared, cosZenith: number, sunAzimuth: number): number {
  const sinZenith = Math.sqrt(Math.max(0, 1 - cosZenith * cosZenith));
  const cosTurn = Math.cos((sunAzimuth - plane.azimuthDeg) * RAD);
  return cosIncidenceOf(plane.cosTilt, plane.sinTilt, cosZenith, sinZenith, cosTurn);
}
