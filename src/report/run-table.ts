import { desc, from, op } from 'arquero';
import type { AlternativeResult } from '../scenarios/study.ts';
import type { GeneratorRun } from '../sim/ledger.ts';
import { localMs, MONTH_NAMES, type StudyView } from './view.ts';

/** The runs of one local month. */
export interface RunMonth {
  month: string;
  runs: number;
  hours: number;
  kwh: number;
  litres: number;
  causes: string[];
  /** in order of time */
  list: GeneratorRun[];
  /** how many shorter ones are not in the list */
  left: number;
}

/** Above this many runs in all, the list keeps the longest of each month. */
const MOST_LISTED = 400;
const MOST_A_MONTH = 12;

/** Generator runs by local month, every run belonging to the month in which it starts. */
export function runsByMonth(view: StudyView, result: AlternativeResult): RunMonth[] {
  const { runs } = result.ledger;
  if (runs.length === 0) return [];
  const most = runs.length > MOST_LISTED ? MOST_A_MONTH : Number.POSITIVE_INFINITY;
  const table = from(
    runs.map((run, i) => {
      const date = new Date(localMs(view, run.startH));
      return {
        i,
        order: date.getUTCFullYear() * 12 + date.getUTCMonth(),
        hours: run.endH - run.startH,
        kwh: run.kwh,
        litres: run.litres,
        cause: run.cause,
      };
    }),
  );
  const months = table
    .groupby('order')
    .rollup({
      runs: op.count(),
      hours: op.sum('hours'),
      kwh: op.sum('kwh'),
      litres: op.sum('litres'),
      causes: op.array_agg_distinct('cause'),
    })
    .orderby('order')
    .objects() as {
    order: number;
    runs: number;
    hours: number;
    kwh: number;
    litres: number;
    causes: string[];
  }[];
  const longestFirst = table.orderby('order', desc('hours')).objects() as { i: number; order: number }[];
  return months.map(({ order, ...sums }) => {
    const list = longestFirst
      .filter((row) => row.order === order)
      .slice(0, most)
      .map(({ i }) => i)
      .sort((a, b) => a - b)
      .map((i) => runs[i]);
    return {
      ...sums,
      month: `${MONTH_NAMES[order % 12]} ${Math.floor(order / 12)}`,
      list,
      left: sums.runs - list.length,
    };
  });
}
