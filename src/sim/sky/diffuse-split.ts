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
 * @param global      [W/m²], >= 0
 * @param cosZenith   cosine of the true zenith angle
 * @param extraNormal extraterrestrial normal irradiance [W/m²]
 */
export function splitGlobal(global: number, cosZenith: number, extraNormal: number): SplitIrradiance {
  if (cosZenith < LEAST_COS_ZENITH) return { directNormal: 0, diffuse: global };
  const kt = Math.max(0, global / (extraNormal * cosZenith));
  const diffuse = global * diffuseFraction(kt);
  return { directNormal: (global - diffuse) / cosZenith, diffuse };
}
