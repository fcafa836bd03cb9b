import type { Inputs } from '../sim/inputs.ts';
import { addAppliances } from './appliances.ts';
import { type ArrayOutput, arrayOutput, isInPlane } from './arrays-from-site.ts';
import { Cache } from './cache.ts';
import { type Clock, instantsOf, makeCalendar, makeClock, monthEnds } from './clock.ts';
import type { Issue, Place } from './issue.ts';
import { type ReadFile, readLoads } from './load-files.ts';
import { hoursFlags, refillSteps } from './local-hours.ts';
import { resample } from './resample.ts';
import type { DataSheet, TimeAxis } from './series.ts';
import type { Path } from './site-document.ts';
import type { SiteParts } from './site-file.ts';
import type { Site } from './site-schema.ts';
import { readWeather, type Weather } from './weather-files.ts';

/** The series of one alternative and what belongs to its axis. */
export interface SiteInputs {
  axis: TimeAxis;
  inputs: Inputs;
  periodEnds: number[];
  /** energy cut off by converters before it reached the site [kWh] */
  clippedKwh: number;
  /** share of each phase in the AC-coupled array */
  acArrayShare: number[];
  /** mean outside temperature of the first day, from which a cabinet starts [°C] */
  airAtStartC: number;
}

/** The groups of a site that its load and weather depend on. */
type Data = Pick<Site, 'site' | 'period' | 'load' | 'appliances' | 'weather' | 'inverter'>;
const NO_ARRAYS = { dcKw: null, acKw: null, clippedKwh: 0 };

/**
 * Makes the series of alternatives, and keeps what several of them share: files are read once, the sun's path and
 * each plane's irradiance are worked out once.
 */
export class InputMaker {
  readonly sheets: DataSheet[] = [];
  readonly issues: Issue[] = [];
  private readonly cache = new Cache();
  private readonly told = new Set<string>();

  /**
   * @param stepMin another step than the site file's [min], or null
   * @param placeOf where a part of the site file stands
   */
  constructor(
    private readonly readFile: ReadFile,
    private readonly stepMin: number | null,
    private readonly placeOf: (path: Path) => Place,
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
    const loadKw = this.loadsOf(site, axis, clock, weather);
    this.checkPlanes(site, weather);
    if (this.issues.some((issue) => issue.severity === 'error')) return null;
    const calendar = this.cache.once(['calendar', axis], () =>
      makeCalendar(clock, axis.startS, axis.stepMin, axis.count),
    );
    const flags = (spans: { from: string; to: string }[]) =>
      this.cache.once(['hours', spans, axis], () => hoursFlags(calendar, spans));
    const arrays = this.arraysOf(site, axis, weather, keepArrays);
    const inputs: Inputs = {
      stepMin: axis.stepMin,
      count: axis.count,
      loadKw,
      dcArrayKw: arrays.dcKw ?? undefined,
      acArrayKw: arrays.acKw ?? undefined,
      airC: weather?.airC,
      cabinetSunWPerM2: weather?.globalWPerM2 ?? undefined,
      restricted: flags(site.control.restrictedHours),
      night: flags([site.control.nightHours]),
      refillSteps: refillSteps(site.tank?.fillDates ?? [], clock, axis),
    };
    const airAtStartC = weather ? firstDayMean(weather.airC, axis) : site.roomC;
    const { clippedKwh, acShare: acArrayShare } = arrays;
    return { axis, inputs, periodEnds: monthEnds(calendar), clippedKwh, acArrayShare, airAtStartC };
  }

  /** Reads the files of a site in which something else is wrong, so that all problems are shown at once. */
  readFiles(parts: SiteParts): void {
    if (!parts.site || !parts.period) return;
    const axis = this.axisOf(parts as Data);
    if (axis === null) return;
    if (parts.weather) this.weatherOf(parts as Data, axis);
    if (parts.load && parts.inverter) this.filesOf(parts as Data, axis);
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
    return this.cache.once(['weather', weather, latitudeDeg, longitudeDeg, timeZone, axis], () => {
      const place = { latDeg: latitudeDeg, lonDeg: longitudeDeg, timeZone };
      const result = readWeather(weather, axis, place, this.readFile, this.placeOf);
      this.take(result);
      return result.weather;
    });
  }

  private filesOf({ site, load, inverter }: Omit<Data, 'appliances'>, axis: TimeAxis): Float64Array[] {
    const { phases, phaseV } = inverter;
    return this.cache.once(['files', load, phases, phaseV, site.timeZone, axis], () => {
      const request = { phases, phaseV, axis, siteZone: site.timeZone };
      const result = readLoads(load, request, this.readFile, this.placeOf, this.cache);
      this.take(result);
      return result.phasesKw;
    });
  }

  /** Load by phase: of the files, and of the appliance list, made minute by minute and averaged over the steps. */
  private loadsOf(site: Data, axis: TimeAxis, clock: Clock, weather: Weather | null): Float64Array[] {
    const files = this.filesOf(site, axis);
    if (site.appliances.length === 0) return files;
    const { appliances, load, weather: sky } = site;
    const { phases, phaseV } = site.inverter;
    const { name, timeZone } = site.site;
    const key = ['loads', appliances, load, phases, phaseV, sky, name, timeZone, axis];
    return this.cache.once(key, () => {
      const minutes: TimeAxis = { startS: axis.startS, stepMin: 1, count: axis.count * axis.stepMin };
      const calendar = makeCalendar(clock, minutes.startS, 1, minutes.count);
      const airC = weather ? resample(weather.airC, axis, minutes) : null;
      const made = files.map(() => new Float64Array(minutes.count));
      addAppliances(made, appliances, calendar, airC, name);
      return files.map((kw, k) => added(kw, resample(made[k], minutes, axis)));
    });
  }

  private checkPlanes({ arrays, cabinet }: Site, weather: Weather | null): void {
    if (weather === null || weather.globalWPerM2 !== null) return;
    const { plane } = weather;
    const issues = arrays.flatMap((array, i) =>
      isInPlane(array, plane)
        ? []
        : [this.noGlobal(['arrays', i, 'tiltDeg'], `${array.tiltDeg}°, facing ${array.azimuthDeg}°`, plane)],
    );
    if (cabinet && cabinet.sunM2 > 0)
      issues.push(this.noGlobal(['cabinet', 'sunM2'], `${cabinet.sunM2} m² in the sun`, plane));
    this.take({ issues, sheets: [] });
  }

  private noGlobal(path: Path, got: string, plane: Weather['plane']): Issue {
    const measured = plane ? `${plane.tiltDeg}°, facing ${plane.azimuthDeg}°` : 'no plane';
    const want = `weather with global irradiance; it has ${measured} only`;
    return { severity: 'error', code: 'no-global', path: path.join('.'), got, want, at: this.placeOf(path) };
  }

  private arraysOf(site: Site, axis: TimeAxis, weather: Weather | null, keep: boolean): ArrayOutput {
    const { phases } = site.inverter;
    if (weather === null) return { ...NO_ARRAYS, acShare: new Array<number>(phases).fill(1 / phases) };
    if (!keep) return arrayOutput(site, axis, weather, this.cache);
    const key = ['arrays', site.arrays, site.battery?.busV, phases, axis, site.site, site.weather];
    return this.cache.once(key, () => arrayOutput(site, axis, weather, this.cache));
  }
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
