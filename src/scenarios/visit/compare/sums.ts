import type { StepColumns } from '../../../sim/columns.ts';
import { fuelRateLPerH, fuelStretches } from '../../../sim/fuel.ts';
import type { Inputs } from '../../../sim/inputs.ts';
import type { Site } from '../../site-schema.ts';
import type { Comparison, Sums } from '../visit.ts';
import type { LogSeries } from './log-series.ts';
import { burnedByTank } from './tank-fuel.ts';

type Fuel = NonNullable<Site['generator']>['fuel'];

/** A run over the log's axis, and the fuel curve that held in each step (null: no generator). */
export interface LogRun {
  inputs: Inputs;
  columns: StepColumns;
  fuelAt: (step: number) => Fuel | null;
  /** of the whole run, part steps counted as such: columns only tell whether the engine ran in a step at all */
  runH: number;
  fuelL: number;
}

/**
 * Sums of the log over its known steps. Fuel is by the tank where it was logged, else by the site file's curve at the
 * logged power.
 */
export function sumsOfLog(
  series: LogSeries,
  levelL: Float64Array | undefined,
  site: Site,
  stepMin: number,
): { sums: Sums; fuelFrom: Comparison['fuelFrom'] } {
  const { known, on, generatorKw, socFrac } = series;
  const hours = stepMin / 60;
  const of = (values: Float64Array | null) => values && total(values, known) * hours;
  const byTank = levelL && on ? burnedByTank(levelL, on, known, stepMin) : null;
  const fuel = site.generator?.fuel ?? null;
  const byCurve = generatorKw && on && fuel ? fuelOf(generatorKw, on, known, () => fuel, hours) : null;
  return {
    sums: {
      loadKwh: of(series.loadKw),
      arrayKwh: of(series.arrayKw),
      generatorKwh: of(generatorKw),
      fuelL: byTank ?? byCurve,
      runH: of(series.onShare ?? on),
      starts: on && startsIn(on, known),
      lowestSoc: socFrac && lowest(socFrac, known),
    },
    fuelFrom: byTank !== null ? 'tank' : byCurve !== null ? 'curve' : null,
  };
}

/**
 * The same sums of a run, in the same steps, the engine's running told in the same way: by its power alone, steps in
 * which it ran are whole ones.
 */
export function sumsOfRun(
  { inputs, columns, fuelAt, runH, fuelL }: LogRun,
  { known, onAboveKw }: Pick<LogSeries, 'known' | 'onAboveKw'>,
): Sums {
  const hours = inputs.stepMin / 60;
  const on = runs(columns, onAboveKw);
  const all = new Uint8Array(known.length).fill(1);
  const wantedKwh = inputs.loadKw.reduce((sum, phase) => sum + total(phase, known), 0) * hours;
  const usedKwh = (total(columns.dcUsedKw, known) + total(columns.acUsedKw, known)) * hours;
  return {
    loadKwh: wantedKwh - total(columns.unservedKw, known) * hours,
    arrayKwh: usedKwh,
    generatorKwh: total(columns.generatorKw, known) * hours,
    fuelL:
      fuelL *
      shareOf(
        fuelOf(columns.generatorKw, on, known, fuelAt, hours),
        fuelOf(columns.generatorKw, on, all, fuelAt, hours),
      ),
    runH: onAboveKw !== null ? total(on, known) * hours : runH * shareOf(total(on, known), total(on, all)),
    starts: startsIn(on, known),
    lowestSoc: lowest(columns.socFrac, known),
  };
}

function shareOf(part: number, whole: number): number {
  return whole > 0 ? part / whole : 0;
}

/** 1 in the steps in which the engine of a run was running. */
function runs({ cause, generatorKw }: StepColumns, aboveKw: number | null): Float64Array {
  if (aboveKw !== null) return generatorKw.map((kw) => Number(kw > aboveKw));
  return Float64Array.from(cause, (one) => Number(one > 0));
}

function total(values: Float64Array, known: Uint8Array): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) if (known[i] === 1) sum += values[i];
  return sum;
}

/** Starts between two known steps: what happened over a gap nobody can tell. */
function startsIn(on: Float64Array, known: Uint8Array): number {
  let count = 0;
  for (let i = 1; i < on.length; i++)
    if (known[i] === 1 && known[i - 1] === 1 && on[i] === 1 && on[i - 1] === 0) count++;
  return count;
}

function lowest(values: Float64Array, known: Uint8Array): number | null {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < values.length; i++) if (known[i] === 1 && values[i] < least) least = values[i];
  return least === Number.POSITIVE_INFINITY ? null : least;
}

function fuelOf(
  kw: Float64Array,
  on: Float64Array,
  known: Uint8Array,
  fuelAt: LogRun['fuelAt'],
  hours: number,
): number {
  let litres = 0;
  let curve: Fuel | null = null;
  let lines = fuelStretches([0, 1], [0, 0]);
  for (let i = 0; i < kw.length; i++) {
    if (known[i] === 0 || on[i] !== 1) continue;
    const now = fuelAt(i);
    if (now === null) continue;
    if (now !== curve) {
      curve = now;
      lines = fuelStretches(
        now.map((point) => point.kW),
        now.map((point) => point.lPerH),
      );
    }
    litres += fuelRateLPerH(Math.max(0, kw[i]), ...lines.breaks, ...lines.lines) * hours;
  }
  return litres;
}
