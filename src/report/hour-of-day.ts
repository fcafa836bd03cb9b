import { START_CAUSES, type StartCause } from '../sim/causes.ts';
import type { GeneratorRun } from '../sim/ledger.ts';
import { daySpans } from './day-spans.ts';
import type { StudyView } from './view.ts';

/** Hours run in one hour of the day, by cause. */
export interface HourOfDay {
  hour: number;
  cause: StartCause;
  runH: number;
}

/**
 * How the run hours lie on the local day: one row for each hour of each cause that occurs. They add up to the run
 * hours of the list.
 */
export function runHoursByHour(view: StudyView, runs: readonly GeneratorRun[]): HourOfDay[] {
  const byCause = new Map<StartCause, Float64Array>();
  for (const run of runs) {
    let hours = byCause.get(run.cause);
    if (!hours) {
      hours = new Float64Array(24);
      byCause.set(run.cause, hours);
    }
    for (const { fromHour, toHour } of daySpans(view, run.startH, run.endH)) addSpan(hours, fromHour, toHour);
  }
  return START_CAUSES.flatMap((cause) =>
    Array.from(byCause.get(cause) ?? [], (runH, hour) => ({ hour, cause, runH })),
  );
}

function addSpan(hours: Float64Array, from: number, to: number): void {
  for (let hour = Math.floor(from); hour < to && hour < 24; hour++)
    hours[hour] += Math.min(to, hour + 1) - Math.max(from, hour);
}

/** The three hours in a row, past midnight too, that hold the most of a day's values; less where their ends hold none. */
export function busiestHours(totals: readonly number[]): { fromHour: number; toHour: number; sum: number } {
  let from = 0;
  let most = -1;
  for (let hour = 0; hour < 24; hour++) {
    const sum = totals[hour] + totals[(hour + 1) % 24] + totals[(hour + 2) % 24];
    if (sum > most + 1e-9) {
      from = hour;
      most = sum;
    }
  }
  let to = from + 3;
  while (to - from > 1 && totals[from % 24] === 0) from++;
  while (to - from > 1 && totals[(to - 1) % 24] === 0) to--;
  return { fromHour: from % 24, toHour: to % 24, sum: most };
}
