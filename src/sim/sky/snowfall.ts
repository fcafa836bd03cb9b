/** Depth of fresh snow per depth of its water: ten to one; common practice. 1 mm of water is 1 cm of snow. */
const CM_PER_MM = 1;

/**
 * Fresh snow from precipitation: all of it is snow in the cold, none in the warm, in proportion between.
 * @param precipMmPerH water that falls [mm/h], >= 0
 * @param allSnowC, allRainC air temperatures [°C], the first below the second; common practice: 0 and 2
 * @returns [cm/h], ten times the depth of its water (common practice)
 * Source: the straight line between two temperatures of the U.S. Army Corps of Engineers, Snow Hydrology, 1956
 * (from memory).
 */
export function snowfallCmPerH(
  precipMmPerH: number,
  airC: number,
  allSnowC: number,
  allRainC: number,
): number {
  const rain = Math.min(1, Math.max(0, (airC - allSnowC) / (allRainC - allSnowC)));
  return precipMmPerH * CM_PER_MM * (1 - rain);
}

/**
 * Fresh snow from the depth that lies on the ground, read at the end of every step: what the depth gains. What
 * settles or melts meanwhile is not seen, and hides as much fresh snow.
 * @param out     written [cm/h], >= 0; the first step has none before it and gets 0
 * @param depthCm depth at the end of each step [cm], finite
 */
export function snowfallFromDepthInto(out: Float64Array, depthCm: Float64Array, stepMin: number): void {
  const perHour = 60 / stepMin;
  out[0] = 0;
  for (let i = 1; i < out.length; i++) out[i] = Math.max(0, depthCm[i] - depthCm[i - 1]) * perHour;
}
