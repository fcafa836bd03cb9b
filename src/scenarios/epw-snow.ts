import { snowfallFromDepthInto } from '../sim/sky/snowfall.ts';
import type { Findings } from './findings.ts';
import type { LaidRows } from './lay-rows.ts';

/**
 * Turns the columns of snow depth and rain into one series, in place: fresh snow where the depth ever rises, else
 * precipitation. Rain is the sum over the time ending at the stamp, the depth is that at the stamp. Holes: the depth
 * before is held on, and no rain is taken to have fallen; where rows are read they are counted.
 * @returns words for the data sheet
 */
export function takeSnow(laid: LaidRows, stepMin: number, found: Findings): string {
  const depth = laid.values.get('snowDepthCm') as Float64Array;
  const rain = laid.values.get('precipMmPerH') as Float64Array;
  laid.values.delete('snowDepthCm');
  laid.values.delete('precipMmPerH');
  holdOn(depth);
  const snow = new Float64Array(depth.length);
  snowfallFromDepthInto(snow, depth, stepMin);
  if (snow.some((cm) => cm > 0)) {
    laid.values.set('snowCmPerH', snow);
    return '; fresh snow is what the snow depth gains';
  }
  if (rain.every(Number.isNaN)) {
    const want = 'snow depth or rain; or leave weather.precipitation out and state sky.snow.falls';
    found.error('no-snow', 'snow and rain', 'neither snow depth that rises nor rain', want);
    return '';
  }
  if (!rain.some((mm) => mm > 0))
    found.doubt('no-snow', 'snow and rain', 'no snow and no rain in the whole file', 'a file that has them');
  laid.values.set(
    'precipMmPerH',
    rain.map((mm) => (Number.isNaN(mm) ? 0 : (mm * 60) / stepMin)),
  );
  return '; rain is the sum up to the stamp, snow where it is cold';
}

/** Fills holes with the value before, the first of all with 0. */
function holdOn(values: Float64Array): void {
  for (let i = 0; i < values.length; i++) if (Number.isNaN(values[i])) values[i] = i > 0 ? values[i - 1] : 0;
}
