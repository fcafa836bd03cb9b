import type { Inputs } from '../../sim/inputs.ts';
import { arraysAlone } from '../arrays-alone.ts';
import { addArray } from '../arrays-from-site.ts';
import { Cache } from '../cache.ts';
import { type Calendar, type Clock, makeCalendar, makeClock } from '../clock.ts';
import { flagsFromSite } from '../flags-from-site.ts';
import { InputMaker } from '../inputs-from-site.ts';
import { type Issue, isUsable } from '../issue.ts';
import type { ReadFile } from '../load-files.ts';
import { refillSteps } from '../local-hours.ts';
import type { SiteRecord } from '../log/site-record.ts';
import { Filed } from '../many/ground.ts';
import type { TimeAxis } from '../series.ts';
import type { Site } from '../site-schema.ts';
import type { Weather } from '../weather-files.ts';
import { sameDays } from './same-days.ts';

/** A site and its log on one axis, that of the log: what every part of a visit starts from. */
export interface VisitGround {
  filed: Filed;
  /** makes the series of the site file's whole period, in the log's step */
  maker: InputMaker;
  /** as filed */
  site: Site;
  record: SiteRecord;
  calendar: Calendar;
  /** the designed load, weather and flags of the log's days: of the same days of the year in the site file's period */
  designed: Inputs;
  /** each array by the designed weather, behind its converter [kW] */
  designedArraysKw: Record<string, Float64Array>;
  /** each array by the sun that the log has, NaN where it has none; null without a column for the sun */
  sunArraysKw: Record<string, Float64Array> | null;
  /** the same if the sun were so many times what the sensor shows; by a share above 1 it is seen what its error does */
  sunArraysBy: (times: number) => Record<string, Float64Array> | null;
  /** share of each phase in the AC-coupled array, and mean outside temperature of the first day [°C] */
  acArrayShare: number[];
  airAtStartC: number;
}

/**
 * Lays a site and its log on the log's axis.
 * `cache` keeps what several logs of a site share.
 * Errors: every problem of the site file and its files, and days of the log that the site file's period has not;
 * then no ground.
 */
export function visitGround(
  { text, file, readFile, cache }: { text: string; file: string; readFile: ReadFile; cache?: Cache },
  record: SiteRecord,
): { ground: VisitGround | null; issues: Issue[] } {
  const filed = new Filed(text, file);
  const { site } = filed;
  const maker = new InputMaker(readFile, record.axis.stepMin, filed.placeOf, cache);
  const made = maker.make(site);
  const clock = clockOf(site, record.axis);
  if (made === null || clock === null) return { ground: null, issues: maker.issues };
  const calendar = makeCalendar(clock, record.axis.startS, record.axis.stepMin, record.axis.count);
  const designedClock = clockOf(site, made.axis) as Clock;
  const designedDays = makeCalendar(designedClock, made.axis.startS, made.axis.stepMin, made.axis.count);
  const { step, issues } = sameDays(made.axis, calendar, designedDays, site, file);
  if (!isUsable(issues)) return { ground: null, issues: [...maker.issues, ...issues] };
  const lay = (values: Float64Array) => Float64Array.from(step, (from) => values[from]);
  const laid = (values: Float64Array | undefined) => values && lay(values);
  const { inputs } = made;
  const designed: Inputs = {
    stepMin: record.axis.stepMin,
    count: record.axis.count,
    loadKw: inputs.loadKw.map(lay),
    ...(inputs.sheddableKw && { sheddableKw: inputs.sheddableKw.map(lay) }),
    dcArrayKw: laid(inputs.dcArrayKw),
    acArrayKw: laid(inputs.acArrayKw),
    airC: laid(inputs.airC),
    cabinetSunWPerM2: laid(inputs.cabinetSunWPerM2),
    ...flagsFromSite(site, calendar, clock, record.axis, maker.cache),
    refillSteps: refillSteps(site.tank?.fillDates ?? [], clock, record.axis),
  };
  const weather = maker.weather(site)?.weather ?? null;
  const sunWeather = weather && laidWeather(weather, lay);
  const sunArraysBy = (times: number) => sunWeather && sunArrays(site, record, calendar, sunWeather, times);
  const ground: VisitGround = {
    ...{ filed, maker, site, record, calendar, designed },
    designedArraysKw: Object.fromEntries(arraysAlone(site, maker).map(([name, kw]) => [name, lay(kw)])),
    ...{ sunArraysKw: sunArraysBy(1), sunArraysBy },
    acArrayShare: made.acArrayShare,
    airAtStartC: made.airAtStartC,
  };
  return { ground, issues: [...maker.issues, ...issues] };
}

function clockOf({ site }: Site, axis: TimeAxis): Clock | null {
  return makeClock(site.timeZone, axis.startS, axis.startS + axis.count * axis.stepMin * 60);
}

function laidWeather(weather: Weather, lay: (values: Float64Array) => Float64Array): Weather {
  const or = (values: Float64Array | null) => values && lay(values);
  return {
    globalWPerM2: or(weather.globalWPerM2),
    directWPerM2: or(weather.directWPerM2),
    diffuseWPerM2: or(weather.diffuseWPerM2),
    airC: lay(weather.airC),
    windMPerS: or(weather.windMPerS),
    snowCmPerH: or(weather.snowCmPerH),
    precipMmPerH: or(weather.precipMmPerH),
    plane: weather.plane && { ...weather.plane, wPerM2: lay(weather.plane.wPerM2) },
  };
}

/** What each array should give with the sun of the log; snow, wind and, where it has none, air are the designed ones. */
function sunArrays(
  site: Site,
  { axis, columns }: SiteRecord,
  calendar: Calendar,
  designed: Weather,
  times: number,
): Record<string, Float64Array> | null {
  const { sunWPerM2, outsideC } = columns;
  if (!sunWPerM2 || site.arrays.length === 0) return null;
  const weather: Weather = {
    ...designed,
    globalWPerM2: sunWPerM2.map((w) => (Number.isNaN(w) ? 0 : Math.max(0, times * w))),
    ...{ directWPerM2: null, diffuseWPerM2: null, plane: null },
    airC: outsideC ? outsideC.map((c, i) => (Number.isNaN(c) ? designed.airC[i] : c)) : designed.airC,
  };
  const setting = { site, axis, weather, calendar, periodEnds: [axis.count], cache: new Cache() };
  const each = site.arrays.map((array): [string, Float64Array] => {
    const kw = new Float64Array(axis.count);
    addArray(kw, setting, array);
    return [array.name, kw.map((value, i) => (Number.isNaN(sunWPerM2[i]) ? Number.NaN : value))];
  });
  return Object.fromEntries(each);
}
