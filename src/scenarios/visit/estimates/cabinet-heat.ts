import type { Cabinet } from '../../../sim/plant.ts';
import type { Estimate } from '../visit.ts';
import { type ClusteredFit, ClusteredRows, clusteredError } from './clustered-fit.ts';
import { hasLongSteps, type LogView, missing, SHORT_STEPS, steadyOwnUse } from './log-view.ts';
import { mixed } from './mixed.ts';
import { fitted, refused } from './outcome.ts';

/** Means are taken over windows of this length, and how cells warm over longer ones [h]. */
const AIR_WINDOW_H = 1;
const CELL_WINDOW_H = 6;
/**
 * Air jumps with every load, and is not known between its readings: standard error of the time constant, as a share of
 * it for each hour of step. Logs every 10 minutes without any noise came out 1 % off (simulated: farm).
 */
const AIR_ERROR_PER_H = 0.06;
/** What is not in the model, such as heat of peaks within a step, goes by the weather: days next to one another. */
const BLOCK_DAYS = 3;
const LEAST_DAYS = 15;

/** Columns that the heat of a cabinet needs. */
interface HeatColumns {
  airC: Float64Array;
  cellC: Float64Array;
  outC: Float64Array;
  batteryKw: Float64Array;
  loadKw: Float64Array;
  arrayKw: Float64Array;
  generatorKw: Float64Array;
  ownOff: Uint8Array;
  sun: Float64Array | null;
}

/**
 * Heat path from the cabinet's air to outside, and the time in which its cells follow the outside air, by the two
 * nodes of RULES.md, section 6, from hours in which no thermostat is on. The heat of the inverters is what the DC
 * balance leaves. Temperatures err by chance: each regressor is made from half of the readings and its instrument from
 * the other half, so that these errors do not bias the slopes.
 */
export function cabinetHeat(view: LogView): [Estimate, Estimate] {
  const refuse = (
    why: 'no-column' | 'too-little' | 'not-told-apart',
    lacks: string,
  ): [Estimate, Estimate] => [refused('coolingWPerK', why, lacks), refused('timeConstantH', why, lacks)];
  const { cabinet, battery } = view.plant;
  if (!cabinet || battery === null) return refuse('not-told-apart', 'a cabinet in the site file');
  if (view.site.batteryCabinets.length > 0) return refuse('not-told-apart', 'cells of each cabinet apart');
  const own = steadyOwnUse(view);
  const { loadKw, arrayKw, generatorKw } = view;
  const [airC, cellC, outC] = [view.column('cabinetC'), view.column('cellC'), view.column('outsideC')];
  const batteryKw = view.column('batteryKw');
  const needed = { cabinetC: airC, cellC, outsideC: outC, batteryKw, loadKw, arrayKw, generatorKw };
  const lacks = missing(needed);
  if (!airC || !cellC || !outC || !batteryKw || !loadKw || !arrayKw || !generatorKw || 'lacks' in own)
    return refuse('no-column', lacks);
  if (hasLongSteps(view)) return refuse('not-told-apart', SHORT_STEPS);
  const sun = cabinet.sunApertureM2 > 0 ? view.column('sunWPerM2') : new Float64Array(view.count);
  const columns: HeatColumns = {
    ...{ airC, cellC, outC, batteryKw, loadKw, arrayKw, generatorKw },
    ...{ ownOff: own.off, sun },
  };
  const air = airRows(view, columns, battery.standbyKw);
  const cells = cellRows(view, columns);
  const days = new Set(windowsOf(view, columns, evenSize(CELL_WINDOW_H, view)).map((i) => view.day[i])).size;
  const needs = `, ${LEAST_DAYS} without heater and cooler needed`;
  if (days < LEAST_DAYS) return refuse('too-little', `${days} days${needs}`);
  const airFit = air.fit();
  const cellFit = cells.fit();
  if (airFit === null || cellFit === null) return refuse('not-told-apart', 'days that differ in heat');
  const [toOut, toCells] = airFit.beta;
  const [cellsToAir, cellsToOut] = cellFit.beta;
  // cells cool to outside by themselves, and through the air: two paths in series
  const all = toOut + toCells;
  const rate = cellsToOut + (cellsToAir * toOut) / all;
  const bySeries = cellsToAir / rate ** 2 / all ** 2;
  const error = (fit: ClusteredFit, first: number, second: number) => ({
    fit,
    slopes: fit.beta.map((_, j) => [first, second][j] ?? 0),
  });
  const coolingError = clusteredError([error(airFit, 1000, 0)]);
  const timeError = clusteredError([
    error(cellFit, toOut / all / rate ** 2, 1 / rate ** 2),
    error(airFit, bySeries * toCells, -bySeries * toOut),
  ]);
  const basis = { count: days, of: 'days' } as const;
  const cooling = { value: toOut * 1000, error: coolingError, freedom: Math.max(1, air.count - 1) };
  const between = (AIR_ERROR_PER_H * view.hours) / rate;
  const time = {
    value: 1 / rate,
    error: Math.hypot(timeError, between),
    freedom: Math.max(1, cells.count - 1),
  };
  const isTold = ({ value, error }: { value: number; error: number }) => value > 0 && error < 0.5 * value;
  const not = 'days that differ in heat';
  return [
    isTold(cooling)
      ? fitted('coolingWPerK', cooling, view, { designed: cabinet.airToOutsideKwPerK * 1000, basis })
      : refused('coolingWPerK', 'not-told-apart', not),
    isTold(time)
      ? fitted('timeConstantH', time, view, {
          designed: timeConstantH(cabinet),
          basis,
        })
      : refused('timeConstantH', 'not-told-apart', not),
  ];
}

/** Of the cells towards outside [h]: their heat over both ways out, by themselves and through the air. */
function timeConstantH(cabinet: Cabinet): number {
  const {
    batteryKwhPerK,
    airToOutsideKwPerK: out,
    airToBatteryKwPerK: cells,
    batteryToOutsideKwPerK,
  } = cabinet;
  return batteryKwhPerK / (batteryToOutsideKwPerK + (out * cells) / (out + cells));
}

/**
 * Heat into the air = toOut·(air − out) + toCells·(air − cells) + heat capacity·rise [kW], hour by hour; with the
 * sun's aperture fitted too where it is lit. Standby heat beside the filed one is the same at all times: a constant.
 */
function airRows(view: LogView, c: HeatColumns, standbyKw: number): ClusteredRows {
  const size = evenSize(AIR_WINDOW_H, view);
  const isLit = isSunlit(view, c);
  const rows = new ClusteredRows(isLit ? 5 : 4);
  for (const from of windowsOf(view, c, size)) {
    const to = from + size - 1;
    const heat = mean((i) => heatKw(c, i), from, to, 1);
    const sun = isLit ? [-mean((i) => (c.sun as Float64Array)[i] / 1000, from, to, 1)] : [];
    const outC = mean((i) => c.outC[i], from, to, 1);
    const half = (first: number) => [
      mean((i) => c.airC[i], first, to - 1, 2) - outC,
      mean((i) => c.airC[i] - c.cellC[i], first, to - 1, 2),
      (c.airC[to - (first - from)] - c.airC[from - 1 + (first - from)]) /
        ((size - 2 * (first - from)) * view.hours),
      1,
      ...sun,
    ];
    rows.add(blockOf(view, from), half(from), heat - standbyKw, 1, half(from + 1));
  }
  return rows;
}

/**
 * Rise of the cells [K/h] = rate·(air − cells) + rate·(out − cells) + by the battery's throughput, seen and hidden
 * within steps, + a constant.
 */
function cellRows(view: LogView, c: HeatColumns): ClusteredRows {
  const size = evenSize(CELL_WINDOW_H, view);
  const both = mixed(c.batteryKw);
  const isMixed = both.some((kw) => kw > 0);
  const rows = new ClusteredRows(isMixed ? 5 : 4);
  for (const from of windowsOf(view, c, size)) {
    const to = from + size - 1;
    const rise = (c.cellC[to] - c.cellC[from - 1]) / (size * view.hours);
    // levels stand at the ends of steps: a step's mean is between its two. So many of them have hardly any error left
    const cellC = mean((i) => (c.cellC[i - 1] + c.cellC[i]) / 2, from, to, 1);
    const airC = mean((i) => (c.airC[i - 1] + c.airC[i]) / 2, from, to, 1);
    const outC = mean((i) => c.outC[i], from, to, 1);
    const throughput = mean((i) => Math.abs(c.batteryKw[i]), from, to, 1);
    const hidden = isMixed ? [mean((i) => both[i], from, to, 1)] : [];
    rows.add(blockOf(view, from), [airC - cellC, outC - cellC, throughput, 1, ...hidden], rise);
  }
  return rows;
}

/** What the DC balance leaves for inverters, chargers and standby [kW]. */
function heatKw(c: HeatColumns, i: number): number {
  return c.arrayKw[i] + c.generatorKw[i] - c.loadKw[i] - c.batteryKw[i];
}

function isSunlit({ plant }: LogView, c: HeatColumns): boolean {
  return c.sun !== null && (plant.cabinet?.sunApertureM2 ?? 0) > 0;
}

function blockOf({ day }: LogView, step: number): number {
  return Math.floor(day[step] / BLOCK_DAYS);
}

/** Steps of a window, even: levels at the ends of every other step are then the middles of equal parts of it. */
function evenSize(windowH: number, { hours }: LogView): number {
  return Math.max(4, 2 * Math.round(windowH / hours / 2));
}

/** First steps of windows one after the other in which everything is known and no thermostat is on. */
function windowsOf({ count }: LogView, c: HeatColumns, size: number): number[] {
  const windows: number[] = [];
  let known = 0;
  for (let i = 1; i < count; i++) {
    const all =
      c.airC[i] + c.cellC[i] + c.outC[i] + c.batteryKw[i] + c.loadKw[i] + c.arrayKw[i] + c.generatorKw[i];
    const isDark = c.sun === null ? c.arrayKw[i] === 0 : true;
    const isKnown = c.ownOff[i] === 1 && isDark && !Number.isNaN(all) && !Number.isNaN(c.sun?.[i] ?? 0);
    known = isKnown ? known + 1 : 0;
    if (known === size + 1) {
      windows.push(i - size + 1);
      known = 1;
    }
  }
  return windows;
}

function mean(of: (i: number) => number, from: number, to: number, by: number): number {
  let sum = 0;
  let n = 0;
  for (let i = from; i <= to; i += by) {
    sum += of(i);
    n++;
  }
  return sum / n;
}
