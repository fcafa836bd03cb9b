import type { Site, SiteLog } from '../site-schema.ts';
import type { RowIntervals } from './read-intervals.ts';
import type { Recorded } from './site-record.ts';

export type LogColumn = SiteLog['columns'][string];

/** Where a column's values go: a quantity of the record, an array, or (voltage) into another. */
export function targetOf(column: LogColumn): string {
  return column.is === 'array' && column.name !== undefined ? `array:${column.name}` : TARGETS[column.is];
}

const TARGETS: Record<LogColumn['is'], Recorded | 'battery voltage'> = {
  charge: 'socFrac',
  load: 'loadKw',
  'load phase 1': 'load1Kw',
  'load phase 2': 'load2Kw',
  'load phase 3': 'load3Kw',
  array: 'arrayKw',
  'battery power': 'batteryKw',
  'battery current': 'batteryKw',
  'battery voltage': 'battery voltage',
  'generator power': 'generatorKw',
  'generator running': 'generatorOn',
  'fuel level': 'fuelL',
  'cabinet temperature': 'cabinetC',
  'cell temperature': 'cellC',
  'outside temperature': 'outsideC',
  irradiance: 'sunWPerM2',
};

/** Levels stand at the end of a step; all else is a mean over it. */
export function isLevel(target: string): boolean {
  return ['socFrac', 'fuelL', 'cabinetC', 'cellC'].includes(target);
}

export function isPower(target: string): boolean {
  return target.endsWith('Kw') || target.startsWith('array:');
}

/** A running total that fell from near the top of its digits to near 0 went round; any other fall is a new beginning. */
const TOP_SHARE = 0.95;

/**
 * Values of a column in our units, one for the stretch of each row.
 * @returns the values, how far apart values in the file's unit of 1 are in ours (0: not constant), and falls of a
 * running total
 */
export function inOurUnit(
  cells: Float64Array,
  column: LogColumn,
  intervals: RowIntervals,
  stamp: 'start' | 'end',
  site: Site,
): { values: Float64Array; perUnit: number; falls: number } {
  const hours = (row: number) => (intervals.toS[row] - intervals.fromS[row]) / 3600;
  const times = (factor: number) => ({ values: cells.map((v) => v * factor), perUnit: factor, falls: 0 });
  switch (column.unit) {
    case '%':
      return times(column.is === 'charge' ? 0.01 : (site.tank?.capacityL ?? Number.NaN) / 100);
    case 'W':
      return times(0.001);
    case 'Wh':
      return { values: cells.map((v, row) => v / 1000 / hours(row)), perUnit: 0, falls: 0 };
    case 'kWh':
      return { values: cells.map((v, row) => v / hours(row)), perUnit: 0, falls: 0 };
    case 'min':
      return { values: cells.map((v, row) => Math.min(1, v / 60 / hours(row))), perUnit: 0, falls: 0 };
    case 'kWh register':
    case 'h register': {
      const { rises, falls } = risesOf(cells, intervals, stamp);
      return { values: rises.map((rise, row) => rise / hours(row)), perUnit: 0, falls };
    }
    case 'F':
      return { values: cells.map((v) => (v - 32) / 1.8), perUnit: 1 / 1.8, falls: 0 };
    case 'K':
      return { values: cells.map((v) => v - 273.15), perUnit: 1, falls: 0 };
    default:
      return times(1);
  }
}

/** What a running total rose over the stretch of each row; NaN over a hole and where it began anew. */
function risesOf(cells: Float64Array, { hole }: RowIntervals, stamp: 'start' | 'end') {
  let falls = 0;
  let top = 0;
  for (const value of cells) if (value > top) top = value;
  const round = 10 ** Math.ceil(Math.log10(Math.max(1, top)));
  const rises = cells.map((value, row) => {
    const [from, to] = stamp === 'end' ? [cells[row - 1], value] : [value, cells[row + 1]];
    if (hole[row] === 1 || from === undefined || to === undefined) return Number.NaN;
    if (to >= from) return to - from;
    if (to < from) falls++;
    const wentRound = from > TOP_SHARE * round && to < (1 - TOP_SHARE) * round;
    return wentRound ? to + round - from : Number.NaN;
  });
  return { rises, falls };
}
