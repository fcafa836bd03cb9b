import seedrandom from 'seedrandom';
import type { LogColumn } from './read-units.ts';
import type { Recorded, SiteRecord } from './site-record.ts';

/** How a recorder writes its log. */
export interface Writing {
  seed: string;
  stamp: 'start' | 'end';
  /** the site's clock: local time less UTC, all year [h] */
  offsetH: number;
  /** powers in W, else kW; charge in %, else 0 to 1 */
  watts: boolean;
  percent: boolean;
  /** battery power is positive while it discharges, and the declaration says so; 'untold': it does not */
  battery: 'charging' | 'discharging' | 'untold';
  decimalComma: boolean;
  /** how far the recorder's clock is ahead at the start, and how much more every day [h] */
  aheadH: number;
  aheadHPerDay: number;
  /** share of the rows that are missing */
  missingShare: number;
  /** two stretches of rows are written in another place */
  shuffled: boolean;
  /** the header stands again in the middle */
  headerAgain: boolean;
}

/** A log as text, and what a site file says of it. */
export interface WrittenLog {
  csv: string;
  /** value of the group `log` of a site file, without the name of the file */
  log: { stamp: 'start' | 'end'; decimalComma: boolean; columns: Record<string, LogColumn> };
}

type IsOf = Partial<Record<Recorded, LogColumn['is']>>;
const IS: IsOf = {
  socFrac: 'charge',
  loadKw: 'load',
  load1Kw: 'load phase 1',
  load2Kw: 'load phase 2',
  load3Kw: 'load phase 3',
  arrayKw: 'array',
  batteryKw: 'battery power',
  generatorKw: 'generator power',
  generatorOn: 'generator running',
  fuelL: 'fuel level',
  cabinetC: 'cabinet temperature',
  cellC: 'cell temperature',
  outsideC: 'outside temperature',
  sunWPerM2: 'irradiance',
};

/** A column as it is written: its header, declaration, factor and decimals. */
interface WrittenColumn {
  header: string;
  declared: LogColumn;
  values: Float64Array;
  factor: number;
  decimals: number;
}

/** Rounded to so many decimals, a value is off by at most half a unit of the last: powers by half a watt. */
const DECIMALS = { kW: 3, W: 0, share: 4, percent: 2, other: 2 };

/**
 * A record as the CSV of a careless recorder: in its units, with its clock, with rows missing and out of place.
 * Steps of which nothing is known are not written.
 */
export function logCsv(record: SiteRecord, writing: Writing): WrittenLog {
  const columns = columnsOf(record, writing);
  const draw = seedrandom(`written ${writing.seed}`);
  const delimiter = writing.decimalComma ? ';' : ',';
  const header = ['time', ...columns.map((column) => column.header)].join(delimiter);
  const lines: string[] = [];
  for (let step = 0; step < record.axis.count; step++) {
    const known = columns.some(({ values }) => !Number.isNaN(values[step]));
    if (!known || draw() < writing.missingShare) continue;
    const cells = columns.map(({ values, factor, decimals }) =>
      cellOf(values[step] * factor, decimals, writing),
    );
    lines.push([stampOf(step, record, writing), ...cells].join(delimiter));
  }
  if (writing.shuffled) for (let k = 0; k < 2; k++) moveStretch(lines, draw);
  if (writing.headerAgain) lines.splice(Math.floor(lines.length / 2), 0, header);
  const { stamp, decimalComma } = writing;
  const declared = Object.fromEntries(columns.map((column) => [column.header, column.declared]));
  return { csv: `${[header, ...lines].join('\n')}\n`, log: { stamp, decimalComma, columns: declared } };
}

function columnsOf(record: SiteRecord, writing: Writing): WrittenColumn[] {
  const single = Object.entries(IS).flatMap(([name, is]): WrittenColumn[] => {
    const values = record.columns[name as Recorded];
    return values ? [columnOf(is, values, writing)] : [];
  });
  const arrays = Object.entries(record.arraysKw).map(([name, values]): WrittenColumn => {
    const column = columnOf('array', values, writing);
    const header = column.header.replace('array', `array ${name}`);
    return { ...column, header, declared: { ...column.declared, name } as LogColumn };
  });
  return [...single, ...arrays];
}

function columnOf(
  is: LogColumn['is'],
  values: Float64Array,
  { watts, percent, battery }: Writing,
): WrittenColumn {
  const of = (unit: string, factor: number, decimals: number): WrittenColumn => {
    const header = `${is} ${unit}`;
    return { header, declared: { is, unit } as LogColumn, values, factor, decimals };
  };
  if (is === 'charge') return percent ? of('%', 100, DECIMALS.percent) : of('0 to 1', 1, DECIMALS.share);
  if (is === 'generator running') return of('0/1', 1, DECIMALS.share);
  if (is === 'fuel level') return of('L', 1, DECIMALS.other);
  if (is === 'irradiance') return of('W/m2', 1, DECIMALS.other);
  if (is.endsWith('temperature')) return of('C', 1, DECIMALS.other);
  const power = watts ? of('W', 1000, DECIMALS.W) : of('kW', 1, DECIMALS.kW);
  if (is !== 'battery power') return power;
  const isTurned = battery !== 'charging';
  const positive = battery === 'untold' ? {} : { positive: battery };
  return {
    ...power,
    factor: isTurned ? -power.factor : power.factor,
    declared: { ...power.declared, ...positive } as LogColumn,
  };
}

function cellOf(value: number, decimals: number, { decimalComma }: Writing): string {
  if (Number.isNaN(value)) return '';
  const text = value.toFixed(decimals);
  return decimalComma ? text.replace('.', ',') : text;
}

/** The time that the recorder's clock showed, with seconds. */
function stampOf(
  step: number,
  { axis }: SiteRecord,
  { stamp, offsetH, aheadH, aheadHPerDay }: Writing,
): string {
  const sinceS = (step + (stamp === 'end' ? 1 : 0)) * axis.stepMin * 60;
  const aheadS = 3600 * (aheadH + (aheadHPerDay * sinceS) / 86_400);
  const shown = new Date(Math.round(axis.startS + sinceS + offsetH * 3600 + aheadS) * 1000).toISOString();
  return `${shown.slice(0, 10)} ${shown.slice(11, 19)}`;
}

/** Takes a stretch of some lines out and puts it in elsewhere. */
function moveStretch(lines: string[], draw: () => number): void {
  if (lines.length < 10) return;
  const taken = lines.splice(Math.floor(draw() * (lines.length - 9)), 2 + Math.floor(draw() * 7));
  lines.splice(Math.floor(draw() * lines.length), 0, ...taken);
}
