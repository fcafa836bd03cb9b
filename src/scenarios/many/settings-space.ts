import type { Site } from '../site-schema.ts';
import type { Point, Space } from './lattice-search.ts';
import { type Rule, type Season, type Setting, todaysValue, valuesAt } from './settings.ts';

/** Start and stop may not be nearer than this, or the generator would hunt (common practice). */
const LEAST_GAP = 0.1;
/** What somebody has put into the calendar need only not contradict itself. */
const LEAST_STEP = 0.01;

/** The space of a site's settings: which points fit together, and which settings go in step. */
export function spaceOf(site: Site, settings: readonly Setting[]): Space {
  const seasons = [
    null,
    ...new Set(settings.map(({ season }) => season).filter((season) => season !== null)),
  ];
  const placeOf = (rule: Rule, season: Season | null) =>
    settings.findIndex((one) => one.rule === rule && one.season === season);
  const pairs = seasons.flatMap((season) =>
    [
      [placeOf('startSoc', season), placeOf('stopSoc', season)],
      [placeOf('peakStopKw', season), placeOf('peakStartKw', season)],
    ].filter((pair): pair is [number, number] => pair.every((place) => place >= 0)),
  );
  const longestMin = 60 * (site.control.maxRunH ?? 24);
  const today = settings.map((setting) => setting.today);
  const isAllowed = (point: Point) => {
    if (point.every((place, i) => place === today[i])) return true;
    const values = valuesAt(settings, point);
    const valueFor = (rule: Rule, season: Season | null) => {
      const place = placeOf(rule, season);
      return place < 0 ? todaysValue(site, rule) : values[place];
    };
    const run = valueFor('minRunMin', null);
    return (
      (run === null || run <= longestMin) &&
      seasons.every(
        (season) =>
          isWideEnough(valueFor('startSoc', season), valueFor('stopSoc', season)) &&
          isBelow(valueFor('peakStopKw', season), valueFor('peakStartKw', season)),
      ) &&
      fitsCalendar(site, valueFor)
    );
  };
  return { lengths: settings.map(({ values }) => values.length), pairs, isAllowed };
}

/** What entries of the site's calendar leave out is as otherwise, and must still fit. */
function fitsCalendar({ control }: Site, valueFor: (rule: Rule, season: null) => number | null): boolean {
  return control.calendar.every(
    (entry) =>
      isWideEnough(
        entry.startSoc ?? valueFor('startSoc', null),
        entry.stopSoc ?? valueFor('stopSoc', null),
        LEAST_STEP,
      ) &&
      isBelow(
        entry.peakStopKw ?? valueFor('peakStopKw', null),
        entry.peakStartKw ?? valueFor('peakStartKw', null),
      ),
  );
}

function isWideEnough(start: number | null, stop: number | null, least = LEAST_GAP): boolean {
  return start === null || stop === null || stop - start >= least - 1e-9;
}

function isBelow(stopKw: number | null, startKw: number | null): boolean {
  return stopKw === null || startKw === null || stopKw <= startKw;
}
