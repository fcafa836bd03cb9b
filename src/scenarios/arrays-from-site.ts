import {
  type ArraySpec,
  addBehindConverter,
  arrayCellsInto,
  arrayPotentialKwInto,
} from '../sim/sky/array-potential.ts';
import { snowLossInto } from '../sim/sky/snow-cover.ts';
import { type ConverterInput, limitInput } from '../sim/sky/string-limits.ts';
import { type ArrayLoss, type ArrayYield, newYield } from './array-yields.ts';
import type { Calendar } from './clock.ts';
import { type ArrayGround, horizonPoints, irradianceOn } from './plane-irradiance.ts';
import type { ArrayPart, Site } from './site-schema.ts';
import { snowOnSite } from './snow-on-site.ts';

/** What the arrays of a site are reckoned from, and the periods that their losses are told by. */
export interface ArraySetting extends ArrayGround {
  calendar: Calendar;
  periodEnds: readonly number[];
}

/**
 * Adds the output of an array behind its converter to a total, and tells what kept the rest from it.
 * Snow, horizon, dirt, window and limits act in the order of `ARRAY_LOSSES`.
 * @param total written: [kW]
 */
export function addArray(total: Float64Array, setting: ArraySetting, array: ArrayPart): ArrayYield {
  const { site, weather, axis, periodEnds } = setting;
  const spec = specOf(setting, array);
  const horizon = horizonPoints(site, array, weather.plane);
  const poa = irradianceOn(setting, array, horizon);
  const potential = potentialOf(setting, poa, spec);
  const told = newYield(array, 'array', periodEnds.length);
  const kwhPerKw = (axis.stepMin / 60) * array.efficiency;
  const tell = (loss: ArrayLoss, period: number, kwSteps: number, perKw = kwhPerKw) => {
    told.lostKwh[loss][period] += kwSteps * perKw;
  };
  if (horizon !== null) {
    const open = potentialOf(setting, irradianceOn(setting, array, null), spec);
    eachPeriod(periodEnds, (k, from, to) =>
      tell('horizon', k, sumBetween(open, from, to) - sumBetween(potential, from, to)),
    );
  }
  const snow = snowLoss(setting, array, poa);
  if (snow !== null)
    eachPeriod(periodEnds, (k, from, to) => {
      const before = sumBetween(potential, from, to);
      for (let i = from; i < to; i++) potential[i] *= 1 - snow[i];
      tell('snow', k, before - sumBetween(potential, from, to));
    });
  const input = inputOf(array);
  const cells = input && array.strings ? cellsOf(setting, poa, spec) : null;
  const outputKw = outputLimitKw(array, site.battery?.busV ?? 0);
  eachPeriod(periodEnds, (k, from, to) => {
    const kw = potential.subarray(from, to);
    if (input !== null) {
      const kept = limitInput(
        kw,
        poa.subarray(from, to),
        cells === null ? null : cells.subarray(from, to),
        array.strings ?? null,
        input,
      );
      for (const loss of ['belowWindow', 'aboveWindow', 'inputCurrent', 'inputPower'] as const)
        tell(loss, k, kept[loss]);
    }
    const clipped = addBehindConverter(total.subarray(from, to), kw, array.efficiency, outputKw);
    tell('output', k, clipped, axis.stepMin / 60);
    told.offeredKwh[k] = (sumBetween(kw, 0, kw.length) * array.efficiency - clipped) * (axis.stepMin / 60);
  });
  return told;
}

function specOf({ calendar }: ArraySetting, array: ArrayPart): ArraySpec {
  const { soilingByMonth, cellTemperature, faimanU0: u0, faimanU1: u1 } = array;
  return {
    ratedKw: array.kWp,
    noctC: array.noctC,
    gammaPerK: array.powerPerK,
    soilingFrac: array.soiling,
    wiringFrac: array.wiring,
    windLoss: cellTemperature === 'faiman' ? { u0, u1 } : null,
    soilingByStep: soilingByMonth
      ? Float64Array.from(calendar.monthIndex, (month) => soilingByMonth[month % 12])
      : null,
  };
}

function potentialOf({ weather }: ArrayGround, poa: Float64Array, spec: ArraySpec): Float64Array {
  const potential = new Float64Array(poa.length);
  arrayPotentialKwInto(potential, poa, weather.airC, weather.windMPerS, spec);
  return potential;
}

function cellsOf({ weather }: ArrayGround, poa: Float64Array, spec: ArraySpec): Float64Array {
  const cells = new Float64Array(poa.length);
  arrayCellsInto(cells, poa, weather.airC, weather.windMPerS, spec);
  return cells;
}

/**
 * Share lost to snow in each step; null where the site knows no snow. Cells under it are taken as warm as the
 * others, and snow slides by the light behind the cover, some per cent below that on it (the careful side).
 */
function snowLoss(
  { site, weather, calendar, axis }: ArraySetting,
  array: ArrayPart,
  poa: Float64Array,
): Float64Array | null {
  const { snow } = site.sky;
  const falls = snow && snowOnSite(snow, weather, calendar, axis.stepMin);
  if (!falls) return null;
  const lost = new Float64Array(poa.length);
  const { tiltDeg, rowsUpSlope } = array;
  snowLossInto(lost, falls, weather.airC, poa, axis.stepMin, { ...snow, tiltDeg, rowsUpSlope });
  return lost;
}

/** Limits at the input of an array's converter; null where it sets none. */
function inputOf({ controller }: ArrayPart): ConverterInput | null {
  if (!controller) return null;
  const none = Number.POSITIVE_INFINITY;
  return {
    minV: controller.minV,
    maxV: controller.trackMaxV ?? controller.maxV,
    maxInputA: controller.maxInputA ?? none,
    ratedKw: controller.ratedKw ?? none,
  };
}

/** Largest output behind an array's converter [kW]. */
function outputLimitKw(array: ArrayPart, busV: Site['roomC']): number {
  if (array.coupling === 'ac') return array.inverterKw ?? Number.POSITIVE_INFINITY;
  return array.controllerA === undefined ? Number.POSITIVE_INFINITY : (array.controllerA * busV) / 1000;
}

function eachPeriod(ends: readonly number[], run: (period: number, from: number, to: number) => void): void {
  for (const [k, to] of ends.entries()) run(k, k === 0 ? 0 : ends[k - 1], to);
}

function sumBetween(values: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let i = from; i < to; i++) sum += values[i];
  return sum;
}
