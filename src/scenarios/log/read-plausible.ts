import type { Findings } from '../findings.ts';
import type { Site } from '../site-schema.ts';
import { isPower, type LogColumn } from './read-units.ts';

/** Between these a value can be [our unit]; `usual` is what the site is rated for. */
interface Bounds {
  low: number;
  high: number;
  usual: number;
}

/** No power is so many times the rating: own choice. */
const TIMES_RATING = 10;
/** A power of which the highest is below this share of the rating was hardly W or kW. */
const NEXT_TO_NOTHING = 1 / 300;
/** Up to this share of impossible values are slips and count as missing; more speak of a wrong unit. */
const MOST_SLIPS = 0.01;

function boundsOf(target: string, site: Site): Bounds {
  if (isPower(target)) {
    const usual = ratedKw(target, site);
    return { low: -TIMES_RATING * usual, high: TIMES_RATING * usual, usual };
  }
  if (target === 'socFrac') return { low: -0.02, high: 1.1, usual: 1 };
  if (target === 'generatorOn') return { low: -0.01, high: 1.05, usual: 1 };
  if (target === 'fuelL') return { low: -1, high: 1.3 * (site.tank?.capacityL ?? 1e6), usual: 0 };
  if (target === 'sunWPerM2') return { low: -50, high: 1800, usual: 1000 };
  if (target === 'outsideC') return { low: -60, high: 60, usual: 0 };
  return { low: -60, high: 110, usual: 0 };
}

/** The most that a power of the site is rated for [kW]; never 0. */
function ratedKw(target: string, { inverter, generator, arrays, battery }: Site): number {
  const name = target.startsWith('array:') ? target.slice(6) : null;
  const kWp = arrays.reduce((sum, one) => sum + (name === null || one.name === name ? one.kWp : 0), 0);
  const inverters = inverter.ratedKva * inverter.phases;
  const genset = generator?.ratedKw ?? 0;
  if (name !== null || target === 'arrayKw') return Math.max(0.1, kWp);
  if (target === 'generatorKw') return Math.max(0.1, genset, genset === 0 ? inverters : 0);
  if (target === 'batteryKw')
    return Math.max(0.1, inverters, (battery?.modules ?? 0) * (battery?.moduleKwh ?? 0), kWp);
  return Math.max(0.1, inverters, genset);
}

/**
 * Values that cannot be: a few are slips, which count as missing; many are a doubt about the unit, which is named where
 * another would fit.
 * @param values in our unit, one a row; slips become NaN
 * @param lines of the rows
 */
export function siftValues(
  values: Float64Array,
  header: string,
  column: LogColumn,
  target: string,
  site: Site,
  lines: Uint32Array,
  found: Findings,
): void {
  const { low, high, usual } = boundsOf(target, site);
  let known = 0;
  let wrong = 0;
  let first = -1;
  let highest = 0;
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i])) continue;
    known++;
    highest = Math.max(highest, Math.abs(values[i]));
    if (values[i] >= low && values[i] <= high) continue;
    if (first < 0) first = i;
    wrong++;
  }
  const spot = first < 0 ? {} : { line: lines[first] };
  const shown = (value: number) => `${Number(value.toPrecision(4))} ${ourUnit(target)}`;
  if (wrong > 0 && wrong <= MOST_SLIPS * known) {
    const got = `${wrong} ${wrong === 1 ? 'value' : 'values'} such as ${shown(values[first])}, the first here`;
    const want = `${shown(low)} to ${shown(high)} at this site; such values count as missing`;
    found.doubt('impossible', header, got, want, spot);
    for (let i = 0; i < values.length; i++) if (values[i] < low || values[i] > high) values[i] = Number.NaN;
  } else if (wrong > 0) {
    const fitting = fittingUnit(column, values[first], low, high);
    const got = `${wrong} of ${known} values beyond ${shown(low)} to ${shown(high)}, such as ${shown(values[first])}`;
    found.doubt(
      'unit',
      header,
      got,
      fitting ? `unit: ${fitting} would fit` : `values of this site in ${column.unit}`,
      spot,
    );
  } else if (isPower(target) && known > 0 && highest > 0 && highest < NEXT_TO_NOTHING * usual) {
    const larger = { W: 'kW', Wh: 'kWh' }[column.unit as string];
    const got = `nothing above ${shown(highest)} where ${shown(usual)} is the rating`;
    found.doubt('unit', header, got, larger ? `unit: ${larger} would fit` : 'powers nearer the rating');
  } else if (target === 'socFrac' && column.unit === '%' && known > 0 && highest <= 0.0101)
    found.doubt('unit', header, 'no charge above 1 %', 'unit: 0 to 1 would fit');
}

/** The unit that makes a possible value of an impossible one; null where none does. */
function fittingUnit({ unit }: LogColumn, value: number, low: number, high: number): string | null {
  const others: Record<string, [string, number][]> = {
    '0 to 1': [['%', value / 100]],
    kW: [['W', value / 1000]],
    kWh: [['Wh', value / 1000]],
    L: [],
    C: [
      ['K', value - 273.15],
      ['F', (value - 32) / 1.8],
    ],
    F: [
      ['K', value * 1.8 + 32 - 273.15],
      ['C', value * 1.8 + 32],
    ],
    K: [
      ['C', value + 273.15],
      ['F', (value + 273.15 - 32) / 1.8],
    ],
    '0/1': [['min', value / 60]],
  };
  return others[unit]?.find(([, as]) => as >= low && as <= high)?.[0] ?? null;
}

/** The unit that the record has a quantity in. */
function ourUnit(target: string): string {
  if (isPower(target)) return 'kW';
  if (target === 'fuelL') return 'L';
  if (target === 'sunWPerM2') return 'W/m²';
  if (target === 'battery voltage') return 'V';
  return target.endsWith('C') ? '°C' : '';
}

/** Values that stay exactly the same for so long are those of a dead sensor [h]: own choice. */
const FROZEN_H = 48;

/** The longest stretch in which a measured value does not move: a doubt. Nothing, and a full battery, may stay so. */
export function tellFrozen(
  values: Float64Array,
  target: string,
  header: string,
  axis: { startS: number; stepMin: number },
  found: Findings,
): void {
  if (target === 'generatorOn' || target === 'fuelL' || target === 'battery voltage') return;
  let longest = { from: 0, steps: 0 };
  for (let from = 0; from < values.length; ) {
    let to = from + 1;
    while (to < values.length && values[to] === values[from]) to++;
    const mayStay = values[from] === 0 || (target === 'socFrac' && values[from] >= 0.97);
    if (!mayStay && to - from > longest.steps) longest = { from, steps: to - from };
    from = to;
  }
  const hours = (longest.steps * axis.stepMin) / 60;
  if (hours < FROZEN_H) return;
  const at = new Date((axis.startS + longest.from * axis.stepMin * 60) * 1000).toISOString().slice(0, 16);
  const got = `${Number(values[longest.from].toPrecision(4))} ${ourUnit(target)} without a change for ${Math.round(hours)} h from ${at}Z`;
  found.doubt('frozen', header, got, 'a value that moves; look at the sensor');
}
