import type { Inputs } from '../sim/inputs.ts';
import { addBehindConverter, arrayPotentialInto } from '../sim/sky/array-potential.ts';
import { planeOfArrayInto, type SunPath, sunPath } from '../sim/sky/plane.ts';
import { addAppliances } from './appliances.ts';
import { type Calendar, type Clock, instantsOf, makeCalendar, makeClock, monthEnds } from './clock.ts';
import type { Issue } from './issue.ts';
import { type LoadSeries, type ReadFile, readLoads } from './load-files.ts';
import { resample } from './resample.ts';
import type { DataSheet, TimeAxis } from './series.ts';
import type { ArrayPart, Site } from './site-schema.ts';
import { readWeather, type WeatherResult } from './weather-files.ts';

/** The series of one alternative and what belongs to its axis. */
export interface SiteInputs {
  axis: TimeAxis;
  inputs: Inputs;
  periodEnds: number[];
  /** energy cut off by converters before it reached the site [kWh] */
  clippedKwh: number;
  /** mean outside temperature of the first day, from which a cabinet starts [°C] */
  airAtStartC: number;
}

/**
 * Makes the series of alternatives, and keeps what several of them share: files are read once, the sun's path and
 * each plane's irradiance are worked out once.
 */
export class InputMaker {
  readonly sheets: DataSheet[] = [];
  readonly issues: Issue[] = [];
  private readonly made = new Map<string, unknown>();

  constructor(
    private readonly readFile: ReadFile,
    private readonly stepMin: number | null,
  ) {}

  /** The series of a site; null when its files have errors, which are then among the issues. */
  make(site: Site): SiteInputs | null {
    const axis = this.once(['axis', site.period, site.site.timeZone], () => this.axisOf(site));
    if (axis === null) return null;
    const clock = this.clockOf(site, axis);
    const weather = this.once(['weather', site.weather, axis], () => this.weatherOf(site, axis));
    const loads = this.once(
      ['loads', site.load, site.appliances, site.inverter.phases, site.inverter.phaseV, axis, site.weather],
      () => this.loadsOf(site, axis),
    );
    const failed = this.issues.some((issue) => issue.severity === 'error');
    if (failed || clock === null || (site.weather && !weather?.weather)) return null;
    const calendar = this.once(['calendar', axis], () =>
      makeCalendar(clock, axis.startS, axis.stepMin, axis.count),
    );
    const arrays = this.once(['arrays', site.arrays, site.battery?.busV, axis, site.site, site.weather], () =>
      this.arraysOf(site, axis),
    );
    const sky = weather?.weather ?? null;
    const inputs: Inputs = {
      stepMin: axis.stepMin,
      count: axis.count,
      loadKw: loads.phasesKw,
      dcArrayKw: arrays.dcKw ?? undefined,
      acArrayKw: arrays.acKw ?? undefined,
      airC: sky?.airC,
      cabinetSunWPerM2: sky?.globalWPerM2,
      restricted: this.once(['restricted', site.control.restrictedHours, axis], () =>
        hoursFlags(calendar, site.control.restrictedHours),
      ),
      night: this.once(['night', site.control.nightHours, axis], () =>
        hoursFlags(calendar, [site.control.nightHours]),
      ),
      refillSteps: refillSteps(site, clock, axis),
    };
    const airAtStartC = sky ? firstDayMean(sky.airC, axis) : site.roomC;
    return { axis, inputs, periodEnds: monthEnds(calendar), clippedKwh: arrays.clippedKwh, airAtStartC };
  }

  private once<T>(key: unknown, make: () => T): T {
    const name = JSON.stringify(key);
    if (!this.made.has(name)) this.made.set(name, make());
    return this.made.get(name) as T;
  }

  private axisOf(site: Site): TimeAxis | null {
    const [year, month, day] = site.period.start.split('-').map(Number);
    const localS = Date.UTC(year, month - 1, day) / 1000;
    const clock = makeClock(site.site.timeZone, localS - 172_800, localS + 172_800);
    if (clock === null) return this.badZone(site);
    const stepMin = this.stepMin ?? site.period.stepMin;
    const [startS] = instantsOf(clock, localS);
    return { startS, stepMin, count: (site.period.days * 1440) / stepMin };
  }

  private badZone(site: Site): null {
    const got = `'${site.site.timeZone}'`;
    const want = "a zone such as 'Europe/Berlin' or an offset such as '+10:00'";
    this.issues.push({
      severity: 'error',
      code: 'time-zone',
      path: 'site.timeZone',
      got,
      want,
      at: { file: 'site' },
    });
    return null;
  }

  private clockOf(site: Site, axis: TimeAxis): Clock | null {
    const endS = axis.startS + axis.count * axis.stepMin * 60;
    return this.once(['clock', site.site.timeZone, axis], () =>
      makeClock(site.site.timeZone, axis.startS, endS),
    );
  }

  private loadsOf(site: Site, axis: TimeAxis): LoadSeries {
    const loads = readLoads(
      site.load,
      site.inverter.phases,
      axis,
      site.site.timeZone,
      site.inverter.phaseV,
      this.readFile,
    );
    this.issues.push(...loads.issues);
    this.sheets.push(...loads.sheets);
    if (site.appliances.length > 0) this.addAppliances(loads.phasesKw, site, axis);
    return loads;
  }

  /** Adds the appliance list, made minute by minute and averaged over the run's steps. */
  private addAppliances(phasesKw: Float64Array[], site: Site, axis: TimeAxis): void {
    const clock = this.clockOf(site, axis);
    if (clock === null) return;
    const minutes: TimeAxis = { startS: axis.startS, stepMin: 1, count: axis.count * axis.stepMin };
    const calendar = makeCalendar(clock, minutes.startS, 1, minutes.count);
    const weather = this.once(['weather', site.weather, axis], () => this.weatherOf(site, axis))?.weather;
    const airC = weather ? resample(weather.airC, axis, minutes) : null;
    const made = phasesKw.map(() => new Float64Array(minutes.count));
    addAppliances(made, site.appliances, calendar, airC, site.site.name);
    for (const [k, total] of phasesKw.entries()) {
      const kw = resample(made[k], minutes, axis);
      for (let i = 0; i < total.length; i++) total[i] += kw[i];
    }
  }

  private weatherOf(site: Site, axis: TimeAxis): WeatherResult | null {
    if (!site.weather) return null;
    const { latitudeDeg, longitudeDeg, timeZone } = site.site;
    const place = { latDeg: latitudeDeg, lonDeg: longitudeDeg, timeZone };
    const result = readWeather(site.weather, axis, place, this.readFile);
    this.issues.push(...result.issues);
    this.sheets.push(...result.sheets);
    return result;
  }

  private arraysOf(site: Site, axis: TimeAxis) {
    const totals = { dc: null as Float64Array | null, ac: null as Float64Array | null };
    let clipped = 0;
    for (const array of site.arrays) {
      totals[array.coupling] ??= new Float64Array(axis.count);
      const potential = this.potentialOf(site, axis, array);
      const total = totals[array.coupling] as Float64Array;
      clipped += addBehindConverter(
        total,
        potential,
        array.efficiency,
        limitKw(array, site.battery?.busV ?? 0),
      );
    }
    return { dcKw: totals.dc, acKw: totals.ac, clippedKwh: (clipped * axis.stepMin) / 60 };
  }

  private potentialOf(site: Site, axis: TimeAxis, array: ArrayPart): Float64Array {
    const { latitudeDeg, longitudeDeg } = site.site;
    const weather = this.once(['weather', site.weather, axis], () => this.weatherOf(site, axis))?.weather;
    if (!weather) throw new Error('an array without weather');
    const path = this.once<SunPath>(['sun', latitudeDeg, longitudeDeg, axis], () =>
      sunPath(axis.startS, axis.stepMin, axis.count, latitudeDeg, longitudeDeg),
    );
    const plane = { tiltDeg: array.tiltDeg, azimuthDeg: array.azimuthDeg, albedo: array.albedo };
    const poa = this.once(['plane', plane, latitudeDeg, longitudeDeg, axis, site.weather], () => {
      const out = new Float64Array(axis.count);
      planeOfArrayInto(out, path, weather, plane);
      return out;
    });
    const potential = new Float64Array(axis.count);
    arrayPotentialInto(potential, poa, weather.airC, {
      ratedKw: array.kWp,
      noctC: array.noctC,
      gammaPerK: array.powerPerK,
      soilingFrac: array.soiling,
      wiringFrac: array.wiring,
    });
    return potential;
  }
}

function firstDayMean(airC: Float64Array, axis: TimeAxis): number {
  const day = airC.subarray(0, 1440 / axis.stepMin);
  return day.reduce((sum, value) => sum + value, 0) / day.length;
}

/** Largest output behind an array's converter [kW]. */
function limitKw(array: ArrayPart, busV: number): number {
  if (array.coupling === 'ac') return array.inverterKw ?? Number.POSITIVE_INFINITY;
  return array.controllerA === undefined ? Number.POSITIVE_INFINITY : (array.controllerA * busV) / 1000;
}

/** 1 in steps that start within any of the daily spans; a span may pass midnight. */
function hoursFlags(calendar: Calendar, spans: readonly { from: string; to: string }[]): Uint8Array {
  const minutes = spans.map(({ from, to }) => [minuteOf(from), minuteOf(to)]);
  const within = (minute: number) =>
    minutes.some(([from, to]) =>
      from <= to ? minute >= from && minute < to : minute >= from || minute < to,
    );
  const byMinute = Uint8Array.from({ length: 1440 }, (_, minute) => Number(within(minute)));
  const flags = new Uint8Array(calendar.minuteOfDay.length);
  for (let i = 0; i < flags.length; i++) flags[i] = byMinute[calendar.minuteOfDay[i]];
  return flags;
}

function minuteOf(time: string): number {
  const [hour, minute] = time.split(':').map(Number);
  return hour * 60 + minute;
}

const DELIVERY_HOUR = 8;

/** Steps at which the tank is filled on fixed dates, at 08:00 local time. */
function refillSteps(site: Site, clock: Clock, axis: TimeAxis): Int32Array {
  const steps = (site.tank?.fillDates ?? []).map((date) => {
    const [atS] = instantsOf(clock, Date.parse(`${date}T00:00Z`) / 1000 + DELIVERY_HOUR * 3600);
    return Math.ceil((atS - axis.startS) / (axis.stepMin * 60));
  });
  return Int32Array.from(steps.filter((step) => step >= 0 && step < axis.count).sort((a, b) => a - b));
}
