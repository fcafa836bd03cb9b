const RAD = Math.PI / 180;

/**
 * Sky-diffuse irradiance on a tilted plane, sky equally bright all over [W/m²].
 * Source: Liu and Jordan, Solar Energy 7(2), 1963.
 */
export function isotropicSky(tiltDeg: number, diffuse: number): number {
  return (diffuse * (1 + Math.cos(tiltDeg * RAD))) / 2;
}

/**
 * Irradiance from the ground on a tilted plane [W/m²]; albedo 0 to 1.
 * Source: Liu and Jordan, Solar Energy 7(2), 1963.
 */
export function groundReflected(tiltDeg: number, global: number, albedo: number): number {
  return (global * albedo * (1 - Math.cos(tiltDeg * RAD))) / 2;
}

/** Sky-diffuse irradiance on a tilted plane, by the part of the sky that it comes from [W/m²]. */
export interface SkyDiffuse {
  isotropic: number;
  circumsolar: number;
}

/** Least cosine of the zenith angle that Hay and Davies' ratio is divided by (89°). */
const LEAST_COSINE = 0.01745;

/**
 * Sky-diffuse irradiance on a tilted plane with a bright patch around the sun.
 * @param diffuse, directNormal diffuse horizontal and direct normal irradiance [W/m²]
 * @param extraNormal    extraterrestrial normal irradiance [W/m²], > 0
 * @param cosIncidence   cosine of the angle of incidence
 * @param cosZenith      cosine of the zenith angle; held at 0.01745 (89°) at least
 * @returns isotropic and circumsolar parts [W/m²], both >= 0 while directNormal <= extraNormal
 * Source: Hay and Davies, Proc. First Canadian Solar Radiation Data Workshop, 1980.
 */
export function hayDavies(
  tiltDeg: number,
  diffuse: number,
  directNormal: number,
  extraNormal: number,
  cosIncidence: number,
  cosZenith: number,
): SkyDiffuse {
  const anisotropy = directNormal / extraNormal;
  const ratio = Math.max(cosIncidence, 0) / Math.max(cosZenith, LEAST_COSINE);
  return {
    isotropic: isotropicSky(tiltDeg, diffuse * (1 - anisotropy)),
    circumsolar: diffuse * anisotropy * ratio,
  };
}
