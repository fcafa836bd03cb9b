import type { Findings } from '../findings.ts';
import type { TimeAxis } from '../series.ts';
import type { Site } from '../site-schema.ts';
import { clearSkyOutput } from './clear-sky-output.ts';
import { aroundMidnight, type LightEdges, lightEdges, middleOf } from './clock-edges.ts';
import { fitClock, type OffsetAt } from './clock-fit.ts';
import type { ClockFinding, SiteRecord } from './site-record.ts';

/** Nothing that could tell. */
export const NOT_KNOWN: ClockFinding = { addedH: 0, driftHPerDay: 0, by: 'unknown' };

/** Evenings that are darker than mornings by more are cut off: the battery was full [min]. */
const CUT_MIN = 60;
/** No day is longer than under a clear sky by so much, at either end [min]. */
const TOO_LONG_MIN = 40;
/** Steps in which the light is looked at: not finer [min]. */
const COARSE_MIN = 5;

/**
 * What first and last light in the columns of arrays and sun say of the recorder's clock. What is clearly off is told,
 * and how to put it right; small differences are left alone.
 * @param record as the file has it
 */
export function clockBySun(record: SiteRecord, site: Site, found: Findings): ClockFinding {
  const edges = edgesOf(record, site);
  if (edges.length === 0) return NOT_KNOWN;
  const offsets = offsetsOf(edges);
  const fit = fitClock(offsets);
  tellLongDays(edges, found);
  if (fit === null) return NOT_KNOWN;
  const { axis } = record;
  if (fit.hour !== null) {
    const { fromDay, toDay, aheadMin } = fit.hour;
    const until = toDay === null ? '' : ` to about ${dateOf(axis, toDay)}`;
    const got = `a clock about an hour ${aheadMin > 0 ? 'ahead' : 'behind'} from about ${dateOf(axis, fromDay)}${until}, by the sun`;
    found.doubt('clock-hour', 'time', got, 'a clock that keeps daylight saving as log.timeZone says: give the zone that it keeps; not put right');
    return NOT_KNOWN;
  }
  if (fit.startMin === 0 && fit.perDayMin === 0) return { addedH: 0, driftHPerDay: 0, by: 'right' };
  const { startMin, perDayMin } = fit;
  const ahead = (minutes: number) => `${Math.abs(Math.round(minutes))} min ${minutes > 0 ? 'ahead' : 'behind'}`;
  const days = (axis.count * axis.stepMin) / 1440;
  const drifts = perDayMin === 0 ? '' : `, and ${ahead(startMin + perDayMin * days)} at its end`;
  const got = `a clock ${ahead(startMin)}${perDayMin === 0 ? '' : ' at the start of the log'}${drifts}, by the sun`;
  const want = 'times that agree with first and last light; put right. Look at time zone, daylight saving and order of dates';
  found.doubt('clock', 'time', got, want);
  return { addedH: toStep(-startMin, perDayMin, axis.stepMin) / 60, driftHPerDay: -perDayMin / 60, by: 'sun' };
}

/** An offset that does not drift keeps the log's steps whole, where they are fine. */
function toStep(minutes: number, perDayMin: number, stepMin: number): number {
  return perDayMin === 0 && stepMin <= 15 ? Math.round(minutes / stepMin) * stepMin : minutes;
}

function dateOf({ startS }: TimeAxis, day: number): string {
  return new Date((startS + day * 86_400) * 1000).toISOString().slice(0, 10);
}

/** Light edges of every column that sees the sun; of irradiance alone where there is that, as nothing cuts it off. */
function edgesOf(record: SiteRecord, site: Site): LightEdges[][] {
  const { sunWPerM2, arrayKw } = record.columns;
  const alone = Object.entries(record.arraysKw);
  if (!sunWPerM2 && !arrayKw && alone.length === 0) return [];
  const axis = coarse(record.axis);
  const thin = (values: Float64Array) => thinned(values, record.axis, axis);
  const clear = clearSkyOutput(site, axis);
  const named = alone.flatMap(([name, kw]) => (clear.arraysKw[name] ? [{ seen: kw, clear: clear.arraysKw[name] }] : []));
  const every = Object.values(clear.arraysKw);
  const together = arrayKw && every.length > 0 ? [{ seen: arrayKw, clear: sum(every) }] : [];
  const columns = sunWPerM2 ? [{ seen: sunWPerM2, clear: clear.sunWPerM2 }] : named.length > 0 ? named : together;
  return columns.map(({ seen, clear: wanted }) => lightEdges(thin(seen), wanted, axis)).filter((list) => list.length > 0);
}

function coarse(axis: TimeAxis): TimeAxis {
  const stepMin = [5, 6, 10, 12, 15, 20, 30, 60].find((step) => step >= COARSE_MIN && step % axis.stepMin === 0) ?? 60;
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

function sum(parts: readonly Float64Array[]): Float64Array {
  return parts[0].map((_, i) => parts.reduce((total, part) => total + part[i], 0));
}

/**
 * How far the clock is ahead, by the middle of first and last light; by first light alone, less what it is usually late
 * by, where the evening is cut off.
 */
function offsetsOf(columns: readonly LightEdges[][]): OffsetAt[] {
  return columns.flatMap((edges) => {
    const late = edges.map(({ firstMin, lastMin }) => aroundMidnight(firstMin - lastMin) / 2);
    const whole = late.filter((min) => Math.abs(min) <= CUT_MIN / 2);
    const usual = whole.length > 0 ? middleOf(whole) : 0;
    return edges.map(({ day, firstMin }, i) => {
      const isWhole = Math.abs(late[i]) <= CUT_MIN / 2;
      return { day, minutes: aroundMidnight(firstMin - (isWhole ? late[i] : usual)), weight: isWhole ? 1 : 0.25 };
    });
  });
}

/** Days longer than the sun makes them: another date, place or hemisphere. */
function tellLongDays(columns: readonly LightEdges[][], found: Findings): void {
  const early = columns.flatMap((edges) => edges.map(({ firstMin, lastMin }) => aroundMidnight(lastMin - firstMin) / 2));
  const long = early.filter((min) => min > TOO_LONG_MIN).length;
  if (early.length < 3 || long < 0.3 * early.length) return;
  const got = `light for more than ${2 * TOO_LONG_MIN} min longer than a clear day has here, in ${Math.round((100 * long) / early.length)} % of the time`;
  found.doubt('long-days', 'time', got, 'days of the right month: look at order of dates, year and latitude');
}
