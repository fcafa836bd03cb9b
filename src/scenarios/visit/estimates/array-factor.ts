import { chargeShare, POWER_MARGIN, SOC_MARGIN } from '../charging-room.ts';
import type { Estimate } from '../visit.ts';
import { dailyRatio, LEAST_BLOCKS } from './daily-ratio.ts';
import { type LogView, missing } from './log-view.ts';
import { fitted, refused } from './outcome.ts';

/**
 * Standard errors of what an array should give by one irradiance sensor. Of the sensor, common practice: 2 % where it
 * is looked after; on a steep plane under a low sun it counts two times and more, as a sky that looks clearer has less
 * diffuse light too: how much is computed. From the horizontal onto the plane by a clock that may be some minutes off:
 * a clock 4 minutes off moves the sum of 70 days by up to 1.7 % (simulated: farm, workshop and hut in all seasons).
 */
const SENSOR_ERROR = 0.02;
const PLANE_ERROR = 0.012;
/** Steps count with at least this share of the arrays' rating expected: at dawn shade and the clock matter most. */
const LEAST_SHARE = 0.1;

/** Output of all arrays over what they should give by the logged sun, where nothing holds them back. */
export function arrayFactor(view: LogView): Estimate {
  const { arrayKw, site, ground, count } = view;
  if (site.arrays.length === 0) return refused('arrayFactor', 'not-told-apart', 'arrays of the site file');
  const soc = view.column('socFrac');
  const batteryKw = view.column('batteryKw');
  const lacks = missing({ arrayKw, socFrac: soc, batteryKw, generator: view.running });
  if (lacks !== '' || arrayKw === null) return refused('arrayFactor', 'no-column', lacks);
  // output alone cannot tell a dull year from a weak array
  if (ground.sunArraysKw === null) return refused('arrayFactor', 'not-told-apart', 'sunWPerM2');
  const expected = total(ground.sunArraysKw, count);
  const counts = free(view, expected);
  const { ratio, days } = dailyRatio(view, arrayKw, expected, counts);
  if (ratio === null)
    return refused('arrayFactor', 'too-little', `${days} days, ${LEAST_BLOCKS} weeks needed`);
  const { fromS } = ratio;
  const more = total(ground.sunArraysBy(1 + SENSOR_ERROR) ?? ground.sunArraysKw, count);
  const sunError = Math.hypot(sumWhere(more, counts) / sumWhere(expected, counts) - 1, PLANE_ERROR);
  const error = Math.hypot(ratio.error, sunError * ratio.value);
  // most of it is the sensor's, whose error is known and not found from the weeks
  const freedom = ratio.freedom * (error / Math.max(ratio.error, 1e-9)) ** 4;
  const basis = { count: ratio.days, of: 'days' } as const;
  return fitted('arrayFactor', { ...ratio, error, freedom }, view, { designed: 1, basis, fromS });
}

function total(arraysKw: Record<string, Float64Array>, count: number): Float64Array {
  const sum = new Float64Array(count);
  for (const kw of Object.values(arraysKw)) for (let i = 0; i < count; i++) sum[i] += kw[i];
  return sum;
}

function sumWhere(kw: Float64Array, counts: Uint8Array): number {
  return kw.reduce((sum, value, i) => sum + (counts[i] === 1 ? value : 0), 0);
}

/** 1 where the arrays give all they can: the battery takes it, and the generator stands. */
function free(view: LogView, expected: Float64Array): Uint8Array {
  const { count, plant, site, running } = view;
  const soc = view.column('socFrac') as Float64Array;
  const batteryKw = view.column('batteryKw') as Float64Array;
  const cellC = view.column('cellC');
  const rated = site.arrays.reduce((sum, { kWp }) => sum + kWp, 0);
  const { battery } = plant;
  const reconnect = Math.ceil(site.control.acReconnectMin / 60 / view.hours) + 1;
  let stands = reconnect;
  return Uint8Array.from({ length: count }, (_, i) => {
    stands = (running as Float64Array)[i] === 0 ? stands + 1 : 0;
    if (battery === null || stands <= reconnect || !(expected[i] > LEAST_SHARE * rated)) return 0;
    if (!(soc[i] < battery.taperStartSoc - SOC_MARGIN)) return 0;
    const kc = cellC ? chargeShare(battery, cellC[i]) : 1;
    return Number(batteryKw[i] < POWER_MARGIN * battery.maxChargeKw * kc);
  });
}
