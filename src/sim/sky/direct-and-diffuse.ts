import { LEAST_COS_ZENITH, splitGlobalInto } from './diffuse-split.ts';

/**
 * Direct and diffuse irradiance of one step from what is known of it, as means over the step.
 * The direct beam is limited: with the sun (in the middle of the step's sunlit part) less than 3° high it counts as
 * diffuse, and its mean never exceeds the extraterrestrial normal of the sunlit part; what is above counts as
 * diffuse too, so that nothing of the horizontal irradiance is lost.
 * @param out       written: [0] direct normal, [1] diffuse horizontal [W/m²], both >= 0
 * @param global    global horizontal [W/m²]
 * @param direct    direct normal [W/m²], NaN where not known
 * @param diffuse   diffuse horizontal [W/m²], NaN where not known. With one of the two, the other follows from the
 *   global; with none, the global is split by its clearness in the sunlit part of the step (Erbs et al.).
 * @param cosZenith, sunlit of a `SunPath`
 * @param extraNormal extraterrestrial normal irradiance [W/m²]
 * @returns whether the global was split
 */
export function directAndDiffuseInto(
  out: Float64Array,
  global: number,
  direct: number,
  diffuse: number,
  cosZenith: number,
  sunlit: number,
  extraNormal: number,
): boolean {
  const limit = extraNormal * sunlit;
  const hasDirect = !Number.isNaN(direct);
  const hasDiffuse = !Number.isNaN(diffuse);
  if (!hasDirect && !hasDiffuse) {
    // clearness compares means over the same time: the extraterrestrial of the step is that of its sunlit part
    splitGlobalInto(out, Math.max(0, global), cosZenith, limit);
    return true;
  }
  const isLow = cosZenith < LEAST_COS_ZENITH;
  let beam = hasDirect ? Math.max(0, direct) : 0;
  let scattered = hasDiffuse ? Math.max(0, diffuse) : 0;
  if (!hasDirect) {
    const rest = Math.max(0, global - scattered);
    if (isLow) scattered += rest;
    else beam = rest / cosZenith;
  } else if (!hasDiffuse) {
    // no more beam than the global has room for
    if (beam * cosZenith > global) beam = global / cosZenith;
    scattered = Math.max(0, global - beam * cosZenith);
  }
  const kept = isLow ? 0 : Math.min(beam, limit);
  scattered += (beam - kept) * cosZenith;
  out[0] = kept;
  out[1] = scattered;
  return false;
}
