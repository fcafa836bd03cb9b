import type { TimeAxis } from '../series.ts';
import type { Site } from '../site-schema.ts';
import { sumOfColumns } from '../sum-columns.ts';
import { clearSkyOutput } from './clear-sky-output.ts';
import type { SiteRecord } from './site-record.ts';

/** A column that sees the sun, and the most that it would see. */
export interface SunColumn {
  seen: Float64Array;
  clear: Float64Array;
}

/** Steps in which the light is looked at: not finer [min]. */
const COARSE_MIN = 5;

/**
 * Every column that sees the sun, on an axis that is fine enough: irradiance alone where there is that, as nothing cuts
 * it off; else single arrays, else all together.
 */
export function sunColumns(record: SiteRecord, site: Site): { axis: TimeAxis; columns: SunColumn[] } {
  const { sunWPerM2, arrayKw } = record.columns;
  const alone = Object.entries(record.arraysKw);
  const axis = coarse(record.axis);
  if (!sunWPerM2 && !arrayKw && alone.length === 0) return { axis, columns: [] };
  const thin = (values: Float64Array) => thinned(values, record.axis, axis);
  const clear = clearSkyOutput(site, axis);
  if (sunWPerM2) return { axis, columns: [{ seen: thin(sunWPerM2), clear: clear.sunWPerM2 }] };
  const named = alone.flatMap(([name, kw]) =>
    clear.arraysKw[name] ? [{ seen: thin(kw), clear: clear.arraysKw[name] }] : [],
  );
  const every = Object.values(clear.arraysKw);
  if (named.length > 0 || !arrayKw || every.length === 0) return { axis, columns: named };
  return { axis, columns: [{ seen: thin(arrayKw), clear: sumOfColumns(every) }] };
}

/** Values moved back by a drift of the clock, in whole steps. */
export function straightened(values: Float64Array, perDayMin: number): Float64Array {
  const stepsPerStep = perDayMin / 1440;
  return values.map((_, i) => values[i + Math.round(i * stepsPerStep)] ?? Number.NaN);
}

function coarse(axis: TimeAxis): TimeAxis {
  const stepMin =
    [5, 6, 10, 12, 15, 20, 30, 60].find((step) => step >= COARSE_MIN && step % axis.stepMin === 0) ?? 60;
  return { ...axis, stepMin, count: Math.floor((axis.count * axis.stepMin) / stepMin) };
}

function thinned(values: Float64Array, from: TimeAxis, to: TimeAxis): Float64Array {
  const per = to.stepMin / from.stepMin;
  if (per === 1) return values;
  return Float64Array.from({ length: to.count }, (_, i) => {
    let all = 0;
    for (let k = i * per; k < (i + 1) * per; k++) all += values[k];
    return all / per;
  });
}
