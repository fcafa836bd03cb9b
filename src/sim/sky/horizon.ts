/** What stands around a place: elevation by azimuth, straight between points and round past north. */
export interface Horizon {
  /** clockwise from north, rising, 0 to below 360, at least one [°] */
  azimuthDeg: Float64Array;
  /** 0 is level, −90 to 90 [°] */
  elevationDeg: Float64Array;
}

/**
 * A horizon from its points in any order.
 * @param points azimuth clockwise from north and elevation [°]; an azimuth beyond 0 to 360 is brought there. Of two
 *   points at one azimuth the later stands, so that 0 and 360 may both be given.
 * Errors: throws without points, or where one is not a finite number.
 */
export function horizonOf(points: readonly (readonly [azimuthDeg: number, elevationDeg: number])[]): Horizon {
  const byAzimuth = new Map<number, number>();
  for (const [azimuth, elevation] of points) {
    if (!Number.isFinite(azimuth) || !Number.isFinite(elevation))
      throw new Error(`horizon point ${azimuth}, ${elevation}`);
    byAzimuth.set(((azimuth % 360) + 360) % 360, elevation);
  }
  if (byAzimuth.size === 0) throw new Error('a horizon without points');
  const sorted = [...byAzimuth].sort((a, b) => a[0] - b[0]);
  return {
    azimuthDeg: Float64Array.from(sorted, ([azimuth]) => azimuth),
    elevationDeg: Float64Array.from(sorted, ([, elevation]) => elevation),
  };
}

/**
 * Elevation of the horizon in a direction [°].
 * @param azimuth clockwise from north, 0 to below 360 [°]
 */
export function horizonElevationDeg(horizon: Horizon, azimuth: number): number {
  const { azimuthDeg, elevationDeg } = horizon;
  const last = azimuthDeg.length - 1;
  let after = 0;
  while (after <= last && azimuthDeg[after] <= azimuth) after++;
  // before the first or past the last point: across north
  const from = after === 0 ? last : after - 1;
  const to = after > last ? 0 : after;
  const span = (azimuthDeg[to] - azimuthDeg[from] + 360) % 360;
  if (span === 0) return elevationDeg[from];
  const part = ((azimuth - azimuthDeg[from] + 360) % 360) / span;
  return elevationDeg[from] + part * (elevationDeg[to] - elevationDeg[from]);
}

/** Whether the sun's centre stands behind the horizon. @param cosZenith cosine of its zenith angle */
export function isBehindHorizon(horizon: Horizon, cosZenith: number, azimuth: number): boolean {
  return cosZenith < Math.sin((horizonElevationDeg(horizon, azimuth) * Math.PI) / 180);
}
