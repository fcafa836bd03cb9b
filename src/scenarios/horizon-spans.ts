import { carryOn, type SiteState } from '../sim/carry-on.ts';
import { OUTAGE_CAUSES } from '../sim/causes.ts';
import type { StepColumns } from '../sim/columns.ts';
import type { Controls } from '../sim/controls.ts';
import type { Inputs } from '../sim/inputs.ts';
import type { Totals } from '../sim/ledger.ts';
import type { Plant } from '../sim/plant.ts';

/** What of a span of steps a study over years needs. */
const SUMMED = [
  'loadKwh',
  'servedKwh',
  'unservedKwh',
  'unservedH',
  'shedKwh',
  'fuelL',
  'runH',
  'starts',
  'curtailedKwh',
  'visits',
  'dischargeKwh',
] as const satisfies readonly (keyof Totals)[];

export interface SumsOfSpan extends Record<(typeof SUMMED)[number], number> {
  unservedByCauseKwh: Totals['unservedByCauseKwh'];
}

interface Spans {
  spans: SumsOfSpan[];
  /** lowest state of charge; 0 without a battery */
  minSoc: number;
  state: SiteState;
}

/**
 * Runs a year in spans (its months, or the year as one), each from where the one before ended: the steps are those of
 * one run.
 * @param ends    steps (not included) at which spans end, rising; the last is the year's end
 * @param before  state at the end of the year before; null: the plant's own start
 * @param columns of the whole year, to be written
 */
export function spansOfYear(
  year: { plant: Plant; controls: Controls; inputs: Inputs },
  ends: readonly number[],
  before: SiteState | null,
  columns: StepColumns,
): Spans {
  const { plant, controls, inputs } = year;
  const spans: SumsOfSpan[] = [];
  let state = before;
  let minSoc = Number.POSITIVE_INFINITY;
  const parts = ends.map((to, i) => spanOf(inputs, i === 0 ? 0 : ends[i - 1], to));
  for (const [i, part] of parts.entries()) {
    const from = i === 0 ? 0 : ends[i - 1];
    // the year after has the calendar of this one
    const next = parts[i + 1] ?? parts[0];
    const stretch = carryOn(plant, controls, part, state, next, columnsOf(columns, from, ends[i]));
    state = stretch.state;
    minSoc = Math.min(minSoc, stretch.extremes.minSoc ?? 0);
    const { totals } = stretch;
    const { unservedByCauseKwh } = totals;
    const sums = Object.fromEntries(SUMMED.map((name) => [name, totals[name]])) as Omit<
      SumsOfSpan,
      'unservedByCauseKwh'
    >;
    spans.push({ ...sums, unservedByCauseKwh });
  }
  return { spans, minSoc, state: state as SiteState };
}

export function sumOfSpans(spans: readonly SumsOfSpan[]): SumsOfSpan {
  const [first, ...others] = spans;
  const sum = { ...first, unservedByCauseKwh: { ...first.unservedByCauseKwh } };
  for (const span of others) {
    for (const name of SUMMED) sum[name] += span[name];
    for (const cause of OUTAGE_CAUSES) sum.unservedByCauseKwh[cause] += span.unservedByCauseKwh[cause];
  }
  return sum;
}

/** The series from one step to another (not included), without a copy. */
export function spanOf(inputs: Inputs, from: number, to: number): Inputs {
  if (from === 0 && to === inputs.count) return inputs;
  const cut = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(cut);
    const isSeries = value instanceof Float64Array || value instanceof Uint8Array;
    return isSeries && value.length === inputs.count ? value.subarray(from, to) : value;
  };
  const { startFails, refillSteps } = inputs;
  const series = Object.fromEntries(Object.entries(inputs).map(([name, value]) => [name, cut(value)]));
  return {
    ...(series as unknown as Inputs),
    count: to - from,
    startFails,
    refillSteps: refillSteps?.filter((step) => step >= from && step < to).map((step) => step - from),
  };
}

/** The columns of a span of steps, without a copy. */
export function columnsOf(columns: StepColumns, from: number, to: number): StepColumns {
  const entries = Object.entries(columns).map(([name, values]) => [name, values.subarray(from, to)]);
  return Object.fromEntries(entries) as StepColumns;
}
