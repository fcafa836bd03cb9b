import { from, op } from 'arquero';
import type { AlternativeResult } from '../scenarios/study.ts';
import { arrayUsedKwh } from './facts.ts';
import type { StudyView } from './view.ts';

/** One month of an alternative (or one year, of a run of more than two). */
export interface MonthRow {
  name: string;
  short: string;
  loadKwh: number;
  arrayKwh: number;
  generatorKwh: number;
  unservedKwh: number;
  fuelL: number;
  runH: number;
  starts: number;
  runningCost: number;
}

/** Above this many months the years are shown instead. */
export const MOST_MONTHS = 24;

/** The ledger's months by name; empty when the run has less than two, or its periods are not the calendar's months. */
export function monthRows(view: StudyView, result: AlternativeResult): MonthRow[] {
  const { periods } = result.ledger;
  const { months } = view;
  if (periods.length !== months.length || months.length < 2) return [];
  const rows = periods.map((totals, i) => ({
    name: months[i].name,
    short: months[i].short,
    year: String(months[i].year),
    loadKwh: totals.loadKwh,
    arrayKwh: arrayUsedKwh(totals),
    generatorKwh: totals.generatorKwh,
    unservedKwh: totals.unservedKwh,
    fuelL: totals.fuelL,
    runH: totals.runH,
    starts: totals.starts,
    runningCost: result.money.runningByMonth[i] ?? 0,
  }));
  if (months.length <= MOST_MONTHS) return rows;
  return from(rows)
    .groupby('year')
    .rollup(sums())
    .rename({ year: 'name' })
    .derive({ short: 'd => d.name' })
    .objects() as MonthRow[];
}

/** The whole of a list of months. */
export function wholeOf(rows: readonly MonthRow[]): Omit<MonthRow, 'name' | 'short'> {
  return from([...rows])
    .rollup(sums())
    .object() as Omit<MonthRow, 'name' | 'short'>;
}

function sums() {
  const names = [
    'loadKwh',
    'arrayKwh',
    'generatorKwh',
    'unservedKwh',
    'fuelL',
    'runH',
    'starts',
    'runningCost',
  ];
  return Object.fromEntries(names.map((name) => [name, op.sum(name)]));
}
