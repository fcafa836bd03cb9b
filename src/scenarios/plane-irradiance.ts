import { type Horizon, horizonOf } from '../sim/sky/horizon.ts';
import { planeOfArrayInto, type SkyModel, type SunPath, sunPath } from '../sim/sky/plane.ts';
import { skyLeftFrac } from '../sim/sky/sky-left.ts';
import type { Cache } from './cache.ts';
import type { TimeAxis } from './series.ts';
import type { ArrayPart, Site } from './site-schema.ts';
import type { Weather } from './weather-files.ts';

/** What the arrays of a site are reckoned from. */
export interface ArrayGround {
  site: Site;
  axis: TimeAxis;
  weather: Weather;
  /** keeps planes and the sun's path, for several alternatives */
  cache: Cache;
}

const MODELS: Record<Site['sky']['transposition'], SkyModel> = {
  isotropic: 'isotropic',
  hayDavies: 'hay-davies',
  perez: 'perez',
};

/** Whether a plane is the one that irradiance was measured on, within what a roof can be measured to. */
export function isInPlane(array: ArrayPart, plane: Weather['plane']): boolean {
  if (plane === null) return false;
  const turn = Math.abs(((array.azimuthDeg - plane.azimuthDeg + 540) % 360) - 180);
  return Math.abs(array.tiltDeg - plane.tiltDeg) <= 1 && (turn <= 1 || plane.tiltDeg < 1);
}

/**
 * The horizon of an array: its own, or the site's; null where it is level all round, or where the irradiance was
 * measured in its plane, and with what stands around it.
 */
export function horizonPoints(
  site: Site,
  array: ArrayPart,
  measured: Weather['plane'],
): Site['sky']['horizon'] | null {
  const points = array.horizon ?? site.sky.horizon;
  return points.length === 0 || isInPlane(array, measured) ? null : points;
}

/**
 * Irradiance that reaches the cells of an array [W/m²]: as measured in its plane, or worked out from the global.
 * @param horizon what stands around it, or null for an open sky
 */
export function irradianceOn(
  { site, axis, weather, cache }: ArrayGround,
  array: ArrayPart,
  horizon: Site['sky']['horizon'] | null,
): Float64Array {
  const { globalWPerM2, directWPerM2, diffuseWPerM2, plane: measured } = weather;
  if (measured !== null && isInPlane(array, measured)) return measured.wPerM2;
  if (globalWPerM2 === null) throw new Error('an array outside the plane that was measured');
  const { latitudeDeg, longitudeDeg } = site.site;
  const path = cache.once<SunPath>(['sun', latitudeDeg, longitudeDeg, axis], () =>
    sunPath(axis.startS, axis.stepMin, axis.count, latitudeDeg, longitudeDeg),
  );
  const { tiltDeg, azimuthDeg, albedo } = array;
  const plane = { tiltDeg, azimuthDeg, albedo, model: MODELS[site.sky.transposition] };
  return cache.once(['plane', plane, horizon, latitudeDeg, longitudeDeg, axis, site.weather], () => {
    const out = new Float64Array(axis.count);
    const around = horizon && horizonFrom(horizon);
    const skyFrac = around ? skyLeftFrac(around, tiltDeg, azimuthDeg) : 1;
    planeOfArrayInto(
      out,
      path,
      { globalWPerM2, directWPerM2, diffuseWPerM2 },
      { ...plane, horizon: around, skyFrac },
    );
    return out;
  });
}

function horizonFrom(points: Site['sky']['horizon']): Horizon {
  return horizonOf(points.map(({ azimuthDeg, elevationDeg }) => [azimuthDeg, elevationDeg] as const));
}
