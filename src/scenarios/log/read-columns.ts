import type { Findings } from '../findings.ts';
import type { Site, SiteLog } from '../site-schema.ts';
import { sumOfColumns } from '../sum-columns.ts';
import type { RowIntervals } from './read-intervals.ts';
import { axisOf, coverage, isBare, layLevels, layMeans } from './read-lay.ts';
import { siftValues, tellFrozen } from './read-plausible.ts';
import type { LogRows } from './read-rows.ts';
import { type ColumnFacts, columnSheet, gapsOf, quantumOf } from './read-sheet.ts';
import { batterySign, isTurned } from './read-signs.ts';
import { inOurUnit, isLevel, isPower, type LogColumn, targetOf } from './read-units.ts';
import type { ClockFinding, Recorded, SiteRecord } from './site-record.ts';

/** Rows with the stretches they speak for, and how they are to be read. */
export interface Laying {
  rows: LogRows;
  intervals: RowIntervals;
  clock: ClockFinding;
  site: Site;
  log: SiteLog;
  /** local time less UTC at the first row [s] */
  offsetS: number;
}

/** A column whose values are in our unit, row by row. */
interface ReadColumn {
  column: LogColumn;
  target: string;
  values: Float64Array;
  facts: ColumnFacts;
}

/** Rows on an axis of equal steps, with the data sheet; doubts about values are told. */
export function layRecord(laying: Laying, found: Findings): SiteRecord {
  const { rows, intervals, log, site, clock } = laying;
  const axis = axisOf(intervals, laying.offsetS);
  const covered = coverage(intervals, axis);
  const read = readColumns(laying, found);
  const record: SiteRecord = {
    ...{ axis, columns: {}, arraysKw: {} },
    sheet: {
      file: log.file,
      timeZone: `${log.timeZone ?? site.site.timeZone}, stamps at interval ${log.stamp}`,
      rows: rows.read,
      columns: [],
      gaps: gapsOf((step) => isBare(covered, step), axis),
      ...{ duplicates: rows.duplicates, resets: rows.resets, clock },
    },
  };
  const laid = read.map(({ target, values }) =>
    isLevel(target) ? layLevels(values, intervals, covered, axis) : layMeans(values, intervals, axis),
  );
  for (const [i, { target }] of read.entries()) {
    if (target.startsWith('array:')) record.arraysKw[target.slice(6)] = laid[i];
    else if (target !== 'battery voltage') record.columns[target as Recorded] = laid[i];
  }
  // the battery's sign may be told by the others'
  for (const isBattery of [false, true])
    for (const [i, one] of read.entries())
      if ((one.target === 'batteryKw') === isBattery)
        one.facts.turned = turn(one, laid[i], record, site, found);
  for (const [i, one] of read.entries()) {
    tellFrozen(laid[i], one.target, one.facts.header, axis, found);
    record.sheet.columns.push(columnSheet(laid[i], one.facts, axis));
  }
  if (rows.resets === 0 && !intervals.isSteady)
    found.doubt(
      'uneven',
      'time',
      `rows at uneven distances, most near ${axis.stepMin} min`,
      `a row every ${axis.stepMin} min; each speaks for the time to its neighbour, up to three usual distances`,
    );
  return record;
}

function readColumns({ rows, intervals, log, site }: Laying, found: Findings): ReadColumn[] {
  const headers = Object.keys(log.columns);
  const volts = headers.find((header) => log.columns[header].is === 'battery voltage');
  return headers.map((header): ReadColumn => {
    const column = log.columns[header];
    const target = targetOf(column);
    const cells = rows.cells.get(header) as Float64Array;
    const { values, perUnit, falls } = inOurUnit(cells, column, intervals, log.stamp, site);
    if (falls > 0)
      found.doubt(
        'register-reset',
        header,
        `a running total that falls ${falls} ${falls === 1 ? 'time' : 'times'}`,
        'one that only rises; these intervals count as missing, unless it went round',
      );
    if (column.is === 'battery current') {
      const busV = site.battery?.busV ?? Number.NaN;
      const voltage = volts === undefined ? null : (rows.cells.get(volts) as Float64Array);
      for (let row = 0; row < values.length; row++) values[row] *= (voltage?.[row] ?? busV) / 1000;
    }
    if (column.is !== 'battery voltage') siftValues(values, header, column, target, site, rows.lines, found);
    const quantum = column.is === 'battery current' ? 0 : quantumOf(cells) * perUnit;
    return {
      column,
      target,
      values,
      facts: { header, is: target, unit: column.unit, quantum, turned: 'no' },
    };
  });
}

/** Turns a column round where it must be, in place. */
function turn(
  { column, target, facts }: ReadColumn,
  values: Float64Array,
  record: SiteRecord,
  site: Site,
  found: Findings,
): ColumnFacts['turned'] {
  let turned: ColumnFacts['turned'] = 'no';
  if (column.is === 'battery power' || column.is === 'battery current')
    turned = batterySign(derived(record, site), site, facts.header, column.positive, found);
  else if (isPower(target) && isTurned(values)) {
    turned = 'found';
    found.doubt(
      'sign',
      facts.header,
      'power that is below 0 nearly always',
      'power above 0; it was turned round',
    );
  }
  if (turned !== 'no') for (let i = 0; i < values.length; i++) values[i] = 0 - values[i];
  return turned;
}

/** The record with sums of parts that the file has without their total: load of all phases, output of all arrays. */
export function derived(record: SiteRecord, { inverter, arrays }: Site): SiteRecord {
  const columns = { ...record.columns };
  const phases = [columns.load1Kw, columns.load2Kw, columns.load3Kw].slice(0, inverter.phases);
  if (!columns.loadKw && phases.every((phase) => phase !== undefined)) columns.loadKw = sumOfColumns(phases);
  const alone = arrays.map(({ name }) => record.arraysKw[name]);
  if (!columns.arrayKw && alone.length > 0 && alone.every((one) => one !== undefined))
    columns.arrayKw = sumOfColumns(alone);
  return { ...record, columns };
}
