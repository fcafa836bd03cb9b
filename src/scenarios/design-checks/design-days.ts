import { carryOn } from '../../sim/carry-on.ts';
import { makeColumns, type StepColumns } from '../../sim/columns.ts';
import type { Inputs } from '../../sim/inputs.ts';
import type { Ledger } from '../../sim/ledger.ts';
import type { Plant } from '../../sim/plant.ts';
import { simulate } from '../../sim/simulate.ts';
import type { CheckedRun } from './check.ts';
import { meanOf, rangeOf } from './measures.ts';

/** A stretch of the same design day, simulated. */
export interface DesignStretch {
  highC: number;
  lowC: number;
  days: number;
  /** the last day, in which the temperatures have settled */
  lastDay: StepColumns;
  /** the coldest and the hottest cells of all cabinets on the last day [°C] */
  coldestCellC: number;
  hottestCellC: number;
  /** array energy refused on the last day because cells were too cold or too hot, and on offer [kWh] */
  lostKwh: number;
  offeredKwh: number;
  /** load of each phase on that day, the highest step [kW] */
  highestLoadKw: number;
  ledger: Ledger;
}

/** The hottest hour of a day by the clock of the site: common practice. */
const HOTTEST_HOUR = 15;

/**
 * Air of a design day: a sine between the lowest and the highest, highest at 15:00.
 * @param hour of the day, 0 to 24
 * @returns [°C]
 */
export function designAirC(hour: number, lowC: number, highC: number): number {
  const wave = Math.cos(((hour - HOTTEST_HOUR) * 2 * Math.PI) / 24);
  return (highC + lowC) / 2 + ((highC - lowC) / 2) * wave;
}

/**
 * Hottest or coldest design day, repeated: the load of that day of the weather used; for the hottest the sun of the
 * sunniest day on cabinet and arrays; for the coldest none on the cabinet, while the arrays have the best day
 * within two weeks of it, because the coldest mornings are clear.
 * @returns null without a cabinet
 */
export function designStretch(run: CheckedRun, which: 'hottest' | 'coldest'): DesignStretch | null {
  const { inputs, plant, site } = run;
  if (plant.cabinet === null || !inputs.airC) return null;
  const perDay = 1440 / inputs.stepMin;
  const wholeDays = Math.floor(inputs.count / perDay);
  if (wholeDays < 1) return null;
  const ofDay = dayOf(inputs.airC, perDay, wholeDays, which);
  const air = rangeOf(inputs.airC.subarray(ofDay * perDay, (ofDay + 1) * perDay));
  const swing = site.design.dailySwingK ?? air.high - air.low;
  const highC =
    which === 'hottest' ? (site.design.hottestC ?? air.high) : (site.design.coldestC ?? air.low) + swing;
  const lowC = highC - swing;
  const sunDay = bestDay(inputs, perDay, wholeDays, which === 'hottest' ? null : ofDay);
  const { days } = site.design;
  const day = dayInputs(inputs, perDay, ofDay, sunDay);
  day.airC = Float64Array.from({ length: perDay }, (_, i) =>
    designAirC(((i + 0.5) * 24) / perDay, lowC, highC),
  );
  if (which === 'coldest') delete day.cabinetSunWPerM2;
  const stretch = repeated(day, days);
  const columns = makeColumns(stretch.count);
  const cabinet = { ...plant.cabinet, initialC: (highC + lowC) / 2 };
  const ends = [(days - 1) * perDay, days * perDay];
  const batteryCabinets = plant.batteryCabinets?.map((each) => ({
    ...each,
    cabinet: { ...each.cabinet, initialC: (highC + lowC) / 2 },
  }));
  const plantThen = { ...plant, cabinet, batteryCabinets };
  const ledger = simulate(plantThen, run.controls, stretch, { columns, periodEnds: ends });
  const [, last] = ledger.periods;
  return {
    ...{ highC, lowC, days, ledger },
    lastDay: lastOf(columns, perDay),
    ...cellsOf(run, plantThen, day),
    lostKwh: last.frostKwh,
    offeredKwh: last.dcPotentialKwh + last.acPotentialKwh,
    highestLoadKw: Math.max(...day.loadKw.map((kw) => rangeOf(kw).high)),
  };
}

/** Cells of the last day, of every cabinet: the per-step column has the mean of them. */
function cellsOf({ controls, site }: CheckedRun, plant: Plant, day: Inputs) {
  const before = carryOn(plant, controls, repeated(day, site.design.days - 1), null, day, null);
  const { extremes } = carryOn(plant, controls, day, before.state, null, null);
  return { coldestCellC: extremes.coldestCellC, hottestCellC: extremes.hottestCellC };
}

/** The day with the highest or the lowest air. */
function dayOf(airC: Float64Array, perDay: number, days: number, which: 'hottest' | 'coldest'): number {
  let best = 0;
  let extreme = which === 'hottest' ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
  for (let i = 0; i < days * perDay; i++)
    if (which === 'hottest' ? airC[i] > extreme : airC[i] < extreme) {
      extreme = airC[i];
      best = Math.floor(i / perDay);
    }
  return best;
}

/** Two weeks: the sun is about as high. */
const NEAR_DAYS = 14;

/** The day with most sun of all, or within two weeks of a day: on the ground, or else on the arrays. */
function bestDay(inputs: Inputs, perDay: number, days: number, nearDay: number | null): number {
  const sun = [inputs.cabinetSunWPerM2, inputs.dcArrayKw, inputs.acArrayKw].find((values) => values);
  if (!sun) return nearDay ?? 0;
  const from = nearDay === null ? 0 : Math.max(0, nearDay - NEAR_DAYS);
  const to = nearDay === null ? days : Math.min(days, nearDay + NEAR_DAYS + 1);
  let best = from;
  let most = Number.NEGATIVE_INFINITY;
  for (let day = from; day < to; day++) {
    const mean = meanOf(sun.subarray(day * perDay, (day + 1) * perDay));
    if (mean > most) {
      most = mean;
      best = day;
    }
  }
  return best;
}

const OF_THE_SUN = ['dcArrayKw', 'acArrayKw', 'cabinetSunWPerM2'];

/** One day cut out of every series of a run, with nothing out of order: the sun's from one day, the rest from another. */
function dayInputs(inputs: Inputs, perDay: number, ofDay: number, sunDay: number): Inputs {
  const cut = (value: unknown, day: number): unknown => {
    if (Array.isArray(value)) return value.map((each) => cut(each, day));
    if ((value instanceof Float64Array || value instanceof Uint8Array) && value.length === inputs.count)
      return value.slice(day * perDay, (day + 1) * perDay);
    return value;
  };
  const { refillSteps: _r, startFails: _s, outOfOrder: _o, bypass: _b, unitsOut: _u, ...rest } = inputs;
  const series = Object.entries(rest).map(([name, value]) => [
    name,
    cut(value, OF_THE_SUN.includes(name) ? sunDay : ofDay),
  ]);
  return { ...(Object.fromEntries(series) as Inputs), count: perDay };
}

/** The same day again and again. */
function repeated(day: Inputs, days: number): Inputs {
  const again = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(again);
    if (value instanceof Float64Array || value instanceof Uint8Array) {
      const all =
        value instanceof Float64Array
          ? new Float64Array(value.length * days)
          : new Uint8Array(value.length * days);
      for (let k = 0; k < days; k++) all.set(value, k * value.length);
      return all;
    }
    return value;
  };
  const series = Object.entries(day).map(([name, value]) => [name, again(value)]);
  return { ...(Object.fromEntries(series) as Inputs), count: day.count * days };
}

function lastOf(columns: StepColumns, perDay: number): StepColumns {
  const last = Object.entries(columns).map(([name, values]) => [name, values.slice(-perDay)]);
  return Object.fromEntries(last) as StepColumns;
}
