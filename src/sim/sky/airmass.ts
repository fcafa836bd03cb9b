const RAD = Math.PI / 180;

/**
 * Relative optical air mass at sea level.
 * @param zenithDeg apparent zenith angle, 0 to 90 [°]
 * @returns 1 overhead, about 38 on the horizon
 * Source: Kasten and Young, Applied Optics 28(22), 1989.
 */
export function relativeAirmass(zenithDeg: number): number {
  return 1 / (Math.cos(zenithDeg * RAD) + 0.50572 * (96.07995 - zenithDeg) ** -1.6364);
}
