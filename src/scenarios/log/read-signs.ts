import type { Findings } from '../findings.ts';
import type { TimeAxis } from '../series.ts';
import type { Site } from '../site-schema.ts';
import type { SiteRecord } from './site-record.ts';

/** A power is one that is never below 0 turned round, where this share of its energy is below. */
const TURNED_SHARE = 0.95;
/** Correlation by the hour from which a sign is told, and below which it is not doubted. */
const CLEAR = 0.3;
/** Fewest hours that tell it. */
const FEW_HOURS = 24;

/** True where a power that cannot be negative is written with the sign turned round. */
export function isTurned(values: Float64Array): boolean {
  let below = 0;
  let all = 0;
  for (const value of values) {
    if (Number.isNaN(value)) continue;
    all += Math.abs(value);
    if (value < 0) below -= value;
  }
  return all > 0 && below > TURNED_SHARE * all;
}

/**
 * How battery power goes with charge, hour by hour: positive where power is positive while it charges. Without charge,
 * with what arrays (or the sun, by their rating) and generator give beyond the load.
 * @returns correlation, −1 to 1; null where nothing tells
 */
function chargingSign(
  { axis, columns }: Pick<SiteRecord, 'axis' | 'columns'>,
  { arrays }: Site,
): number | null {
  const { batteryKw, socFrac, loadKw, arrayKw, generatorKw, sunWPerM2 } = columns;
  if (!batteryKw) return null;
  if (socFrac) return correlation(hourly(batteryKw, axis), hourlyRise(socFrac, axis));
  const kWp = arrays.reduce((sum, array) => sum + array.kWp, 0);
  const sunKw = arrayKw ?? sunWPerM2?.map((w) => (w / 1000) * kWp);
  if (!loadKw || !sunKw) return null;
  const beyond = loadKw.map((kw, i) => sunKw[i] + (generatorKw?.[i] ?? 0) - kw);
  return correlation(hourly(batteryKw, axis), hourly(beyond, axis));
}

/** Whether battery power must be turned round, and what is told of it. */
export function batterySign(
  record: Pick<SiteRecord, 'axis' | 'columns'>,
  site: Site,
  header: string,
  positive: 'charging' | 'discharging' | undefined,
  found: Findings,
): 'no' | 'declared' | 'found' {
  const sign = chargingSign(record, site);
  if (positive === undefined) {
    if (sign === null || Math.abs(sign) < CLEAR) {
      const why = sign === null ? 'no column tells' : 'the charge does not tell';
      found.doubt(
        'sign',
        header,
        `battery power of which ${why} whether it is positive while charging`,
        'positive: charging or discharging; taken as charging',
      );
      return 'no';
    }
    if (sign < 0)
      found.doubt(
        'sign',
        header,
        'battery power that is positive while the charge falls',
        'positive: discharging in the site file, if so; it was turned round',
      );
    return sign < 0 ? 'found' : 'no';
  }
  const declared = positive === 'discharging' ? -1 : 1;
  if (sign !== null && sign * declared < -CLEAR)
    found.doubt(
      'sign',
      header,
      `battery power that rises while the charge ${positive === 'charging' ? 'falls' : 'rises'}`,
      `positive: ${positive === 'charging' ? 'discharging' : 'charging'}? It was read as declared`,
    );
  return declared < 0 ? 'declared' : 'no';
}

function hourly(values: Float64Array, { stepMin, count }: TimeAxis): Float64Array {
  const per = 60 / stepMin;
  return Float64Array.from({ length: Math.floor(count / per) }, (_, hour) => {
    let sum = 0;
    for (let i = hour * per; i < (hour + 1) * per; i++) sum += values[i];
    return sum / per;
  });
}

function hourlyRise(levels: Float64Array, { stepMin, count }: TimeAxis): Float64Array {
  const per = 60 / stepMin;
  return Float64Array.from({ length: Math.floor(count / per) }, (_, hour) =>
    hour === 0 ? Number.NaN : levels[(hour + 1) * per - 1] - levels[hour * per - 1],
  );
}

/** Over the hours that have both; null where they are few or nothing changes. */
function correlation(a: Float64Array, b: Float64Array): number | null {
  let [count, sumA, sumB, sumAA, sumBB, sumAB] = [0, 0, 0, 0, 0, 0];
  for (let i = 0; i < a.length; i++) {
    if (Number.isNaN(a[i]) || Number.isNaN(b[i])) continue;
    count++;
    sumA += a[i];
    sumB += b[i];
    sumAA += a[i] * a[i];
    sumBB += b[i] * b[i];
    sumAB += a[i] * b[i];
  }
  if (count < FEW_HOURS) return null;
  const varA = sumAA - (sumA * sumA) / count;
  const varB = sumBB - (sumB * sumB) / count;
  if (varA <= 1e-12 * sumAA || varB <= 1e-12 * sumBB) return null;
  return (sumAB - (sumA * sumB) / count) / Math.sqrt(varA * varB);
}
