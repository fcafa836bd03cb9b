/**
 * Diffuse share of global horizontal irradiance by the hourly clearness index.
 * @param kt clearness index, >= 0
 * @returns 0 to 1
 * Source: Erbs, Klein and Duffie, Solar Energy 28(4), 1982, 293-302.
 */
export function diffuseFraction(kt: number): number {
  if (kt <= 0.22) return 1 - 0.09 * kt;
  if (kt > 0.8) return 0.165;
  return 0.9511 + kt * (-0.1604 + kt * (4.388 + kt * (-16.638 + kt * 12.336)));
}

/** Direct normal and diffuse horizontal irradiance [W/m²]. */
export interface SplitIrradiance {
  directNormal: number;
  diffuse: number;
}

/** Below this cosine of the zenith angle (87° from overhead) all global irradiance counts as diffuse. */
export const LEAST_COS_ZENITH = 0.0523;

/**
 * Splits global horizontal irradiance into direct and diffuse where only the global is known.
 * Global is always direct·cos z + diffuse. Near the horizon dividing by cos z would blow up small errors of time
 * and cosine: with the sun less than 3° high all is diffuse, and the direct never exceeds the extraterrestrial.
 * @param global      [W/m²], >= 0
 * @param cosZenith   cosine of the true zenith angle
 * @param extraNormal extraterrestrial normal irradiance [W/m²]
 */
export function splitGlobal(global: number, cosZenith: number, extraNormal: number): SplitIrradiance {
  const out = new Float64Array(2);
  splitGlobalInto(out, global, cosZenith, extraNormal);
  return { directNormal: out[0], diffuse: out[1] };
}

/** The same without allocating. @param out written: [0] direct normal, [1] diffuse horizontal [W/m²] */
export function splitGlobalInto(
  out: Float64Array,
  global: number,
  cosZenith: number,
  extraNormal: number,
): void {
  out[0] = 0;
  out[1] = global;
  // no extraterrestrial: a step without sun
  if (cosZenith < LEAST_COS_ZENITH || extraNormal <= 0) return;
  const beam = global * (1 - diffuseFraction(global / (extraNormal * cosZenith)));
  out[0] = Math.min(extraNormal, beam / cosZenith);
  out[1] = global - out[0] * cosZenith;
}
