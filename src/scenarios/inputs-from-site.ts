import type { Inputs } from '../sim/inputs.ts';
import { addAppliances } from './appliances.ts';
import { type ArrayOutput, arrayOutput } from './array-output.ts';
import type { ArrayYield } from './array-yields.ts';
import { Cache } from './cache.ts';
import { type Calendar, type Clock, instantsOf, makeCalendar, makeClock, monthEnds } from './clock.ts';
import { flagsFromSite } from './flags-from-site.ts';
import type { Issue, Place } from './issue.ts';
import { type ReadFile, readLoads } from './load-files.ts';
import { refillSteps } from './local-hours.ts';
import { resample } from './resample.ts';
import type { DataSheet, TimeAxis } from './series.ts';
import type { Path } from './site-document.ts';
import type { SiteParts } from './site-file.ts';
import type { Site } from './site-schema.ts';
import { readSources } from './source-files.ts';
import { readWeather, type Weather } from './weather-files.ts';
import { weatherNeeds } from './weather-needs.ts';

/** The series of one alternative and what belongs to its axis. */
export interface SiteInputs {
  axis: TimeAxis;
  inputs: Inputs;
  periodEnds: number[];
  /** what each array and other source offers, and what keeps the rest from the site */
  yields: ArrayYield[];
  /** share of each phase in the AC-coupled array */
  acArrayShare: number[];
  /** mean outside temperature of the first day, from which a cabinet starts [°C] */
  airAtStartC: number;
}

/** The groups of a site that its load and weather depend on. */
type Data = Pick<Site, 'site' | 'period' | 'load' | 'appliances' | 'weather' | 'inverter'>;

/**
 * Makes the series of alternatives, and keeps what several of them share: files are read once, the sun's path and
 * each plane's irradiance are worked out once.
 */
export class InputMaker {
  readonly sheets: DataSheet[] = [];
  readonly issues: Issue[] = [];
  private readonly told = new Set<string>();

  /**
   * @param stepMin another step than the site file's [min], or null
   * @param placeOf where a part of the site file stands
   * @param cache   keeps what several alternatives share
   */
  constructor(
    private readonly readFile: ReadFile,
    private readonly stepMin: number | null,
    private readonly placeOf: (path: Path) => Place,
    readonly cache = new Cache(),
  ) {}

  /**
   * The series of a site; null when its files have errors, which are then among the issues.
   * @param keepArrays false where many sizes are tried: their output is made anew each time, and not kept
   */
  make(site: Site, keepArrays = true): SiteInputs | null {
    const axis = this.axisOf(site);
    const clock = axis && this.clockOf(site, axis);
    if (axis === null || clock === null) return null;
    const weather = this.weatherOf(site, axis);
    const { loadKw, sheddableKw } = this.loadsOf(site, axis, clock, weather);
    const sourcesKw = this.sourcesOf(site, axis);
    if (weather !== null) this.take({ issues: weatherNeeds(site, weather, this.placeOf), sheets: [] });
    if (this.issues.some((issue) => issue.severity === 'error')) return null;
    const calendar = this.cache.once(['calendar', axis], () =>
      makeCalendar(clock, axis.startS, axis.stepMin, axis.count),
    );
    const arrays = this.arraysOf(site, axis, weather, calendar, sourcesKw, keepArrays);
    const inputs: Inputs = {
      stepMin: axis.stepMin,
      count: axis.count,
      loadKw,
      ...(sheddableKw && { sheddableKw }),
      dcArrayKw: arrays.dcKw ?? undefined,
      acArrayKw: arrays.acKw ?? undefined,
      airC: weather?.airC,
      cabinetSunWPerM2: weather?.globalWPerM2 ?? undefined,
      ...flagsFromSite(site, calendar, clock, axis, this.cache),
      refillSteps: refillSteps(site.tank?.fillDates ?? [], clock, axis),
    };
    const airAtStartC = weather ? firstDayMean(weather.airC, axis) : site.roomC;
    const { yields, acShare: acArrayShare } = arrays;
    return { axis, inputs, periodEnds: monthEnds(calendar), yields, acArrayShare, airAtStartC };
  }

  /** A maker that has what this one has, and forgets what it makes itself when it is let go. */
  forked(): InputMaker {
    return new InputMaker(this.readFile, this.stepMin, this.placeOf, new Cache(this.cache.entries()));
  }

  /** Forgets what it made on the way, such as the irradiance of each plane, and keeps the series that runs take. */
  tidy(): void {
    this.cache.keepOnly(['weather', 'arrays', 'loads']);
  }

  /** The weather of a site on the run's axis; null without any, or when its file has errors. */
  weather(site: Site): { weather: Weather | null; axis: TimeAxis } | null {
    const axis = this.axisOf(site);
    return axis && { weather: this.weatherOf(site, axis), axis };
  }

  /** Takes a weather for that of a site, which is told from others by what the site says of it. */
  giveWeather(site: Site, weather: Weather): void {
    const axis = this.axisOf(site);
    if (axis && site.weather) this.cache.once(weatherKey(site, axis), () => weather);
  }

  /** Reads the files of a site in which something else is wrong, so that all problems are shown at once. */
  readFiles(parts: SiteParts): void {
    if (!parts.site || !parts.period) return;
    const axis = this.axisOf(parts as Data);
    if (axis === null) return;
    if (parts.weather) this.weatherOf(parts as Data, axis);
    if (parts.load && parts.inverter) this.filesOf(parts as Data, axis);
    if (parts.sources && parts.inverter) this.sourcesOf(parts as Site, axis);
  }

  private take(found: { issues: readonly Issue[]; sheets: readonly DataSheet[] }): void {
    const isNew = (what: unknown) => {
      const text = JSON.stringify(what);
      if (this.told.has(text)) return false;
      this.told.add(text);
      return true;
    };
    this.issues.push(...found.issues.filter(isNew));
    this.sheets.push(...found.sheets.filter(isNew));
  }

  /** Null where the site's clock is not known, which the checks of the site file have said. */
  private axisOf({ site, period }: Pick<Site, 'site' | 'period'>): TimeAxis | null {
    const [year, month, day] = period.start.split('-').map(Number);
    const localS = Date.UTC(year, month - 1, day) / 1000;
    const clock = makeClock(site.timeZone, localS - 172_800, localS + 172_800);
    if (clock === null) return null;
    const stepMin = this.stepMin ?? period.stepMin;
    const [startS] = instantsOf(clock, localS);
    return { startS, stepMin, count: (period.days * 1440) / stepMin };
  }

  private clockOf({ site }: Pick<Site, 'site'>, axis: TimeAxis): Clock | null {
    const endS = axis.startS + axis.count * axis.stepMin * 60;
    return this.cache.once(['clock', site.timeZone, axis], () => makeClock(site.timeZone, axis.startS, endS));
  }

  private weatherOf({ site, weather }: Pick<Site, 'site' | 'weather'>, axis: TimeAxis): Weather | null {
    if (!weather) return null;
    const { latitudeDeg, longitudeDeg, timeZone } = site;
    return this.cache.once(weatherKey({ site, weather }, axis), () => {
      const place = { latDeg: latitudeDeg, lonDeg: longitudeDeg, timeZone };
      const result = readWeather(weather, axis, place, this.readFile, this.placeOf);
      this.take(result);
      return result.weather;
    });
  }

  private filesOf(
    { site, load, inverter }: Omit<Data, 'appliances'>,
    axis: TimeAxis,
    only: 'sheddable' | null = null,
  ): Float64Array[] {
    const { phases, phaseV } = inverter;
    return this.cache.once(['files', only, load, phases, phaseV, site.timeZone, axis], () => {
      const request = { phases, phaseV, axis, siteZone: site.timeZone, only };
      const result = readLoads(load, request, this.readFile, this.placeOf, this.cache);
      this.take(result);
      return result.phasesKw;
    });
  }

  private sourcesOf(
    { site, sources, inverter }: Pick<Site, 'site' | 'sources' | 'inverter'>,
    axis: TimeAxis,
  ): Float64Array[] {
    if (sources.length === 0) return [];
    const { phaseV } = inverter;
    return this.cache.once(['sources', sources, phaseV, site.timeZone, axis], () => {
      const request = { phases: 1, phaseV, axis, siteZone: site.timeZone, only: null };
      const result = readSources(sources, request, this.readFile, this.placeOf, this.cache);
      this.take(result);
      return result.kw;
    });
  }

  /** Load by phase, and the part of it that may be shed: null where none may. */
  private loadsOf(
    site: Data,
    axis: TimeAxis,
    clock: Clock,
    weather: Weather | null,
  ): { loadKw: Float64Array[]; sheddableKw: Float64Array[] | null } {
    const loadKw = this.classOf(site, axis, clock, weather, null);
    const some = [...site.load, ...site.appliances].some((each) => each.class === 'sheddable');
    return { loadKw, sheddableKw: some ? this.classOf(site, axis, clock, weather, 'sheddable') : null };
  }

  /**
   * Load by phase of a class (null: all of it): of the files, and of the appliance list, made minute by minute and
   * averaged over the steps.
   */
  private classOf(
    site: Data,
    axis: TimeAxis,
    clock: Clock,
    weather: Weather | null,
    only: 'sheddable' | null,
  ): Float64Array[] {
    const files = this.filesOf(site, axis, only);
    if (site.appliances.length === 0) return files;
    const { appliances, load, weather: sky } = site;
    const { phases, phaseV } = site.inverter;
    const { name, timeZone } = site.site;
    const key = ['loads', only, appliances, load, phases, phaseV, sky, name, timeZone, axis];
    return this.cache.once(key, () => {
      const minutes: TimeAxis = { startS: axis.startS, stepMin: 1, count: axis.count * axis.stepMin };
      const calendar = makeCalendar(clock, minutes.startS, 1, minutes.count);
      const airC = weather ? resample(weather.airC, axis, minutes) : null;
      const made = files.map(() => new Float64Array(minutes.count));
      // every appliance keeps its draw, whichever are added up
      const list = appliances.map((each) => (only && each.class !== only ? { ...each, watts: 0 } : each));
      addAppliances(made, list, calendar, airC, name);
      return files.map((kw, k) => added(kw, resample(made[k], minutes, axis)));
    });
  }

  private arraysOf(
    site: Site,
    axis: TimeAxis,
    weather: Weather | null,
    calendar: Calendar,
    sourcesKw: readonly Float64Array[],
    keep: boolean,
  ): ArrayOutput {
    const { arrays, sources, sky, battery, inverter } = site;
    const key = [
      'arrays',
      arrays,
      sources,
      sky,
      battery?.busV,
      inverter.phases,
      inverter.phaseV,
      axis,
      site.site,
      site.weather,
    ];
    const make = () => {
      const periodEnds = monthEnds(calendar);
      const setting = weather && { site, axis, weather, calendar, periodEnds, cache: this.cache };
      return arrayOutput(site, setting, sourcesKw, { ...axis, periodEnds });
    };
    return keep ? this.cache.once(key, make) : make();
  }
}

function weatherKey({ site, weather }: Pick<Site, 'site' | 'weather'>, axis: TimeAxis): unknown[] {
  const { latitudeDeg, longitudeDeg, timeZone } = site;
  return ['weather', weather, latitudeDeg, longitudeDeg, timeZone, axis];
}

function firstDayMean(airC: Float64Array, axis: TimeAxis): number {
  const day = airC.subarray(0, 1440 / axis.stepMin);
  return day.reduce((sum, value) => sum + value, 0) / day.length;
}

function added(a: Float64Array, b: Float64Array): Float64Array {
  const sum = new Float64Array(a.length);
  for (let i = 0; i < sum.length; i++) sum[i] = a[i] + b[i];
  return sum;
}
