import { type Horizon, horizonElevationDeg } from './horizon.ts';

const RAD = Math.PI / 180;

/** Directions round the sky that the sum is made over; a degree each. */
const DIRECTIONS = 360;

/**
 * Share of an even sky's light on a plane that a horizon leaves: the sky above the horizon over all the sky that the
 * plane faces, each direction weighted by the cosine of its incidence. What stands in front of the sky is taken as
 * dark; parts of the horizon below level hide nothing.
 * @param tiltDeg    0 flat, 90 upright [°]
 * @param azimuthDeg the way the plane faces, clockwise from north [°]
 * @returns 0 to 1; 1 for a plane that faces no sky
 * Source: the view factor integral of an even sky, its elevations in closed form (worked for this project); without a
 * horizon it is (1 + cos tilt)/2 of Liu and Jordan, Solar Energy 7(2), 1963.
 */
export function skyLeftFrac(horizon: Horizon, tiltDeg: number, azimuthDeg: number): number {
  let open = 0;
  let left = 0;
  for (let k = 0; k < DIRECTIONS; k++) {
    const azimuth = ((k + 0.5) * 360) / DIRECTIONS;
    const up = Math.cos(tiltDeg * RAD);
    const out = Math.sin(tiltDeg * RAD) * Math.cos((azimuth - azimuthDeg) * RAD);
    // where the plane faces away, only the sky above its own back
    const least = out < 0 ? Math.atan2(-out, up) : 0;
    const hidden = Math.max(least, horizonElevationDeg(horizon, azimuth) * RAD);
    open += fromAbove(least, up, out);
    left += fromAbove(hidden, up, out);
  }
  return open > 0 ? Math.min(1, left / open) : 1;
}

/** ∫ (up·sin e + out·cos e)·cos e de from an elevation to straight up. */
function fromAbove(elevation: number, up: number, out: number): number {
  const sine = Math.sin(elevation);
  const quarter = Math.PI / 4 - elevation / 2 - Math.sin(2 * elevation) / 4;
  return (up * (1 - sine * sine)) / 2 + out * quarter;
}
