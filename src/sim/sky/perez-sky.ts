const RAD = Math.PI / 180;

/** Lower edges of the bins of clearness. */
const EDGES = [1, 1.065, 1.23, 1.5, 1.95, 2.8, 4.5, 6.2];

/** Per bin F11 F12 F13 F21 F22 F23. */
const COEFFICIENTS = [
  [-0.008, 0.588, -0.062, -0.06, 0.072, -0.022],
  [0.13, 0.683, -0.151, -0.019, 0.066, -0.029],
  [0.33, 0.487, -0.221, 0.055, -0.064, -0.026],
  [0.568, 0.187, -0.295, 0.109, -0.152, -0.014],
  [0.873, -0.392, -0.362, 0.226, -0.462, 0.001],
  [1.132, -1.237, -0.412, 0.288, -0.823, 0.056],
  [1.06, -1.6, -0.359, 0.264, -1.127, 0.131],
  [0.678, -0.327, -0.25, 0.156, -1.377, 0.251],
];

/** The zenith angle's weight in the clearness, angle in radians. */
const KAPPA = 1.041;

/** Least cosine of the zenith angle that the circumsolar part is divided by (85°). */
const LEAST_COSINE = Math.cos(85 * RAD);

/**
 * Sky-diffuse irradiance on a tilted plane with a bright patch around the sun and a brighter (or darker) horizon.
 * @param out          written: isotropic, circumsolar, horizon part [W/m²]; the horizon part may be negative, their
 *   sum too under rare skies: the caller holds it at 0
 * @param tiltDeg      tilt of the plane [°]
 * @param diffuse, directNormal diffuse horizontal and direct normal irradiance [W/m²]; all parts are 0 where the
 *   diffuse is not above 0
 * @param extraNormal  extraterrestrial normal irradiance [W/m²], > 0
 * @param cosIncidence cosine of the angle of incidence
 * @param zenithDeg    zenith angle, 0 to 90 [°]
 * @param airmass      relative optical air mass
 * Source: Perez, Ineichen, Seals, Michalsky and Stewart, Solar Energy 44(5), 1990, 271-289, table 6 (all sites).
 */
export function perezSkyInto(
  out: Float64Array,
  tiltDeg: number,
  diffuse: number,
  directNormal: number,
  extraNormal: number,
  cosIncidence: number,
  zenithDeg: number,
  airmass: number,
): void {
  out[0] = out[1] = out[2] = 0;
  if (!(diffuse > 0)) return;
  const zenith = zenithDeg * RAD;
  const cubed = KAPPA * zenith * zenith * zenith;
  const clearness = ((diffuse + directNormal) / diffuse + cubed) / (1 + cubed);
  const brightness = (diffuse * airmass) / extraNormal;
  const f = COEFFICIENTS[binOf(clearness)];
  const circumsolar = Math.max(0, f[0] + f[1] * brightness + f[2] * zenith);
  const horizon = f[3] + f[4] * brightness + f[5] * zenith;
  const ratio = Math.max(0, cosIncidence) / Math.max(LEAST_COSINE, Math.cos(zenith));
  out[0] = (diffuse * (1 - circumsolar) * (1 + Math.cos(tiltDeg * RAD))) / 2;
  out[1] = diffuse * circumsolar * ratio;
  out[2] = diffuse * horizon * Math.sin(tiltDeg * RAD);
}

function binOf(clearness: number): number {
  let bin = EDGES.length - 1;
  while (bin > 0 && clearness < EDGES[bin]) bin--;
  return bin;
}
