import type { Findings } from '../findings.ts';
import type { TimeAxis } from '../series.ts';
import type { Site } from '../site-schema.ts';
import { type SunColumn, straightened, sunColumns } from './clock-columns.ts';
import { aroundMidnight, type LightEdges, lightEdges } from './clock-edges.ts';
import { type ClockFit, fitClock, type OffsetAt } from './clock-fit.ts';
import type { ClockFinding, SiteRecord } from './site-record.ts';

/** Nothing that could tell. */
export const NOT_KNOWN: ClockFinding = { addedH: 0, driftHPerDay: 0, by: 'unknown' };

/** Evenings that are darker than those of most days by more are cut off: the battery was full [min]. */
const CUT_MIN = 6;
/** Of how late light is at both ends, what this share of the stretches stays below is not the battery's doing. */
const UNCUT_SHARE = 0.1;
/** Light that is later at both ends of all days is not believed beyond this: it may be cut off on all of them [min]. */
const MOST_LATE_MIN = 2;
/** No day is longer than under a clear sky by so much, at either end [min]. */
const TOO_LONG_MIN = 40;
/** An offset is rounded to steps so fine [min]. */
const FINE_MIN = 5;

/**
 * What first and last light in the columns of arrays and sun say of the recorder's clock. What is clearly off is told,
 * and how to put it right; small differences are left alone.
 * @param record as the file has it
 */
export function clockBySun(record: SiteRecord, site: Site, found: Findings): ClockFinding {
  const { axis, columns } = sunColumns(record, site);
  const isCut = record.columns.sunWPerM2 === undefined;
  const edges = edgesOf(columns, axis, 0);
  if (edges.length === 0) return NOT_KNOWN;
  tellLongDays(edges, found);
  const first = fitClock(offsetsOf(edges, isCut));
  const fit = first && first.perDayMin !== 0 ? againWithoutDrift(first, columns, axis, isCut) : first;
  if (fit === null) return NOT_KNOWN;
  if (fit.hour !== null) {
    const { fromDay, toDay, aheadMin } = fit.hour;
    const until = toDay === null ? '' : ` to about ${dateOf(axis, toDay)}`;
    const got = `a clock about an hour ${aheadMin > 0 ? 'ahead' : 'behind'} from about ${dateOf(axis, fromDay)}${until}, by the sun`;
    found.doubt(
      'clock-hour',
      'time',
      got,
      'a clock that keeps daylight saving as log.timeZone says: give the zone that it keeps; not put right',
    );
    return NOT_KNOWN;
  }
  if (fit.startMin === 0 && fit.perDayMin === 0) return { addedH: 0, driftHPerDay: 0, by: 'right' };
  const { startMin, perDayMin } = fit;
  const ahead = (minutes: number) =>
    `${Math.abs(Math.round(minutes))} min ${minutes > 0 ? 'ahead' : 'behind'}`;
  const days = (axis.count * axis.stepMin) / 1440;
  const drifts = perDayMin === 0 ? '' : `, and ${ahead(startMin + perDayMin * days)} at its end`;
  const got = `a clock ${ahead(startMin)}${perDayMin === 0 ? '' : ' at the start of the log'}${drifts}, by the sun`;
  const want =
    'times that agree with first and last light; put right. Look at time zone, daylight saving and order of dates';
  found.doubt('clock', 'time', got, want);
  return {
    addedH: toStep(-startMin, perDayMin, record.axis.stepMin) / 60,
    driftHPerDay: -perDayMin / 60,
    by: 'sun',
  };
}

/** Days that are looked at together blur what drifts: once more with the drift that was found taken out. */
function againWithoutDrift(
  first: ClockFit,
  columns: readonly SunColumn[],
  axis: TimeAxis,
  isCut: boolean,
): ClockFit {
  const again = fitClock(offsetsOf(edgesOf(columns, axis, first.perDayMin), isCut));
  if (again === null) return first;
  const { start, slope } = again.line;
  return { ...first, startMin: start, perDayMin: first.perDayMin + slope };
}

/** Light edges of each column, a drift of the clock taken out first. */
function edgesOf(columns: readonly SunColumn[], axis: TimeAxis, perDayMin: number): LightEdges[][] {
  return columns
    .map(({ seen, clear }) => lightEdges(perDayMin === 0 ? seen : straightened(seen, perDayMin), clear, axis))
    .filter((list) => list.length > 0);
}

/** An offset that does not drift keeps the log's steps whole, where they are fine. */
function toStep(minutes: number, perDayMin: number, stepMin: number): number {
  return perDayMin === 0 && stepMin <= FINE_MIN ? Math.round(minutes / stepMin) * stepMin : minutes;
}

function dateOf({ startS }: TimeAxis, day: number): string {
  return new Date((startS + day * 86_400) * 1000).toISOString().slice(0, 10);
}

/**
 * How far the clock is ahead, by the middle of first and last light; by first light alone, less what it is usually late
 * by, where the evening is cut off.
 */
function offsetsOf(columns: readonly LightEdges[][], isCut: boolean): OffsetAt[] {
  return columns.flatMap((edges) => {
    const late = edges.map(({ firstMin, lastMin }) => aroundMidnight(firstMin - lastMin) / 2);
    const least = [...late].sort((a, b) => a - b)[Math.floor(UNCUT_SHARE * (late.length - 1))];
    const usual = Math.min(least, MOST_LATE_MIN);
    return edges.map(({ day, firstMin }, i) => {
      const isWhole = !isCut || Math.abs(late[i] - usual) <= CUT_MIN;
      return {
        day,
        minutes: aroundMidnight(firstMin - (isWhole ? late[i] : usual)),
        weight: isWhole ? 1 : 0.4,
      };
    });
  });
}

/** Days longer than the sun makes them: another date, place or hemisphere. */
function tellLongDays(columns: readonly LightEdges[][], found: Findings): void {
  const early = columns.flatMap((edges) =>
    edges.map(({ firstMin, lastMin }) => aroundMidnight(lastMin - firstMin) / 2),
  );
  const long = early.filter((min) => min > TOO_LONG_MIN).length;
  if (early.length < 3 || long < 0.3 * early.length) return;
  const got = `light for more than ${2 * TOO_LONG_MIN} min longer than a clear day has here, in ${Math.round((100 * long) / early.length)} % of the time`;
  found.doubt('long-days', 'time', got, 'days of the right month: look at order of dates, year and latitude');
}
