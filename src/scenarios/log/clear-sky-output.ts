import { clearSkyGlobal } from '../../sim/sky/clear-sky.ts';
import { sunPath } from '../../sim/sky/plane.ts';
import { addArray } from '../arrays-from-site.ts';
import { Cache } from '../cache.ts';
import { type Calendar, makeCalendar, makeClock } from '../clock.ts';
import type { TimeAxis } from '../series.ts';
import type { ArrayPart, Site } from '../site-schema.ts';
import type { Weather } from '../weather-files.ts';

/** Mild air: only the hours of light matter here [°C]; own choice. */
const AIR_C = 10;

/** Share of the clear sky's light under bright clouds, all of it diffuse: more than a clear sky gives behind a plane. Own choice. */
const BRIGHT_CLOUD = 0.4;

/** The most that sun and arrays would give, under a clear sky or under bright clouds, without snow. */
export interface ClearSkyOutput {
  sunWPerM2: Float64Array;
  /** by name [kW] */
  arraysKw: Record<string, Float64Array>;
}

/** Global irradiance and the most that each array gives on an axis; no arrays where the site has no clock. */
export function clearSkyOutput(site: Site, axis: TimeAxis): ClearSkyOutput {
  const { latitudeDeg, longitudeDeg, timeZone } = site.site;
  const path = sunPath(axis.startS, axis.stepMin, axis.count, latitudeDeg, longitudeDeg);
  const sunWPerM2 = path.cosZenith.map((cosine, i) => clearSkyGlobal(cosine) * path.sunlit[i]);
  const clock = makeClock(timeZone, axis.startS, axis.startS + axis.count * axis.stepMin * 60);
  if (clock === null) return { sunWPerM2, arraysKw: {} };
  const calendar: Calendar = makeCalendar(clock, axis.startS, axis.stepMin, axis.count);
  const clear: Weather = {
    globalWPerM2: sunWPerM2,
    airC: new Float64Array(axis.count).fill(AIR_C),
    ...{ directWPerM2: null, diffuseWPerM2: null, plane: null },
    windMPerS: new Float64Array(axis.count).fill(1),
    ...{ snowCmPerH: null, precipMmPerH: null },
  };
  const diffuse = sunWPerM2.map((value) => BRIGHT_CLOUD * value);
  const clouded: Weather = {
    ...clear,
    ...{ globalWPerM2: diffuse, directWPerM2: new Float64Array(axis.count), diffuseWPerM2: diffuse },
  };
  const bare = { ...site, sky: { ...site.sky, snow: null } };
  const outputOf = (array: ArrayPart, weather: Weather): Float64Array => {
    const kw = new Float64Array(axis.count);
    addArray(
      kw,
      { site: bare, axis, weather, calendar, periodEnds: [axis.count], cache: new Cache() },
      array,
    );
    return kw;
  };
  const each = site.arrays.map((array): [string, Float64Array] => {
    const under = outputOf(array, clouded);
    return [array.name, outputOf(array, clear).map((kw, i) => Math.max(kw, under[i]))];
  });
  return { sunWPerM2, arraysKw: Object.fromEntries(each) };
}
