import { makeClock } from './clock.ts';
import type { Tell } from './site-checks.ts';
import type { Site } from './site-schema.ts';
import { monthSpread } from './synthetic-weather.ts';

/** The clock of the site must be known, and what has a date must fall into the period. */
export function checkPlace({ site, period, tank }: Pick<Site, 'site' | 'period' | 'tank'>, tell: Tell): void {
  checkZone(['site', 'timeZone'], site.timeZone, tell);
  const dayOf = (date: string) => Date.parse(`${date}T00:00Z`) / 86_400_000;
  const first = dayOf(period.start);
  for (const [i, date] of (tank?.fillDates ?? []).entries())
    if (dayOf(date) < first || dayOf(date) >= first + period.days)
      tell.doubt(
        ['tank', 'fillDates', i],
        date,
        `a day of the period, ${period.days} days from ${period.start}; this delivery is left out`,
      );
}

/** Offsets reach from UTC-12 to UTC+14. */
const MOST_OFFSET_S = 14 * 3600;

function checkZone(path: (string | number)[], zone: string | undefined, tell: Tell): void {
  if (zone === undefined) return;
  const clock = makeClock(zone, 0, 0);
  if (clock === null || clock.offsetS.some((offset) => Math.abs(offset) > MOST_OFFSET_S))
    tell.refuse(path, `'${zone}'`, "a zone such as 'Europe/Berlin' or an offset such as '+10:00'");
}

type Data = Pick<Site, 'load' | 'appliances' | 'inverter' | 'weather'>;

/** Load must come from somewhere and go to a phase that is there; clocks of files must be known. */
export function checkFiles({ load: loads, appliances, inverter, weather }: Data, tell: Tell): void {
  const { phases } = inverter;
  const within = `a phase of ${phases}, or 'all'`;
  if (loads.length + appliances.length === 0) tell.refuse(['load'], 'no load', 'a load file, or appliances');
  for (const [i, load] of loads.entries()) {
    checkZone(['load', i, 'timeZone'], load.timeZone, tell);
    const columns = Object.entries(load.columns ?? {});
    if (load.columns && columns.length === 0)
      tell.refuse(['load', i, 'columns'], 'no column', 'a column of the file and its phase');
    for (const [column, phase] of columns)
      if (phase !== 'all' && phase > phases)
        tell.refuse(['load', i, 'columns', column], `phase ${phase}`, within);
    if (load.phase !== 'all' && load.phase > phases)
      tell.refuse(['load', i, 'phase'], `phase ${load.phase}`, within);
  }
  for (const [i, { phase }] of appliances.entries())
    if (phase !== 'all' && phase > phases) tell.refuse(['appliances', i, 'phase'], `phase ${phase}`, within);
  if (weather?.format !== 'csv') return;
  checkZone(['weather', 'timeZone'], weather.timeZone, tell);
  if (weather.global === undefined && weather.planeOfArray === undefined)
    tell.refuse(['weather', 'global'], 'no column of irradiance', 'global, or planeOfArray');
}

/** Monthly means must be possible under the sky of the site, and lows below highs. */
export function checkMonthlyWeather({ weather, site }: Pick<Site, 'weather' | 'site'>, tell: Tell): void {
  if (weather?.format !== 'monthly') return;
  for (let month = 0; month < 12; month++) {
    if (weather.lowC[month] >= weather.highC[month])
      tell.refuse(
        ['weather', 'lowC', month],
        `${weather.lowC[month]} °C`,
        `below highC, ${weather.highC[month]} °C`,
      );
    const { mean, greatest } = monthSpread({ ...weather, latDeg: site.latitudeDeg }, month);
    if (!(mean > 0.08 && mean < greatest - 0.02))
      tell.refuse(
        ['weather', 'globalKwh', month],
        `${weather.globalKwh[month]} kWh/m² a day`,
        `between ${((weather.globalKwh[month] * 0.08) / mean).toFixed(2)} and ${((weather.globalKwh[month] * (greatest - 0.02)) / mean).toFixed(2)} at this latitude`,
      );
  }
}
