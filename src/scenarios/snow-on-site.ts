import { snowfallCmPerH } from '../sim/sky/snowfall.ts';
import type { Calendar } from './clock.ts';
import type { SnowPart } from './site-schema.ts';
import type { Weather } from './weather-files.ts';

/**
 * Fresh snow on a site [cm/h] on the axis of its weather: the falls that the site file states, each spread evenly over
 * its local day; else the fresh snow of the weather file; else its precipitation where the air is cold.
 * @returns null where none of them is known
 */
export function snowOnSite(
  snow: SnowPart,
  weather: Weather,
  calendar: Calendar,
  stepMin: number,
): Float64Array | null {
  if (snow.falls.length > 0) return statedFalls(snow.falls, calendar, stepMin);
  if (weather.snowCmPerH !== null) return weather.snowCmPerH;
  const { precipMmPerH, airC } = weather;
  if (precipMmPerH === null) return null;
  return precipMmPerH.map((mm, i) => snowfallCmPerH(mm, airC[i], snow.allSnowC, snow.allRainC));
}

/** Falls outside the axis are left out; the checks of the site file say so. */
function statedFalls(falls: SnowPart['falls'], { dayNumber }: Calendar, stepMin: number): Float64Array {
  const out = new Float64Array(dayNumber.length);
  for (const { date, cm } of falls) {
    const day = Date.parse(`${date}T00:00Z`) / 86_400_000;
    const from = dayNumber.indexOf(day);
    if (from < 0) continue;
    // a day of 23 or 25 hours has its own number of steps
    const to = dayNumber.lastIndexOf(day) + 1;
    for (let i = from; i < to; i++) out[i] += cm / (((to - from) * stepMin) / 60);
  }
  return out;
}
