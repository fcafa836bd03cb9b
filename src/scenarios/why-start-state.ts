import { dcDrawKw, deratingFactor } from '../sim/inverter.ts';
import type { AlternativeResult } from './study.ts';
import { type Thresholds, thresholdsAt } from './thresholds-at.ts';

/** What was above what, where the load started it: a phase's threshold, what inverters carry, what battery gives. */
type Excess = 'threshold' | 'inverters' | 'battery';

/** How things stood when the generator was asked for. */
export interface StartState {
  /** the step in which it was asked for */
  step: number;
  /** state of charge at the start; null: no battery */
  socFrac: number | null;
  /** how long it had been at or below the start threshold; null: no rule, or the one shown drifts and is not known */
  lowForH: number | null;
  /** since the state of charge was last at the stop threshold; null: never before, or no rule */
  sinceFullH: number | null;
  /** what held a start on a low battery back: restricted hours that just ended, or until it was urgent */
  heldBack: 'hours ended' | 'urgent in hours' | 'urgent in frost' | null;
  /** since the run before ended, and whether its longest time ended it; null: it is the first */
  sinceRunH: number | null;
  afterLongestRun: boolean;
  /** by phase: load and AC-coupled array [kW] */
  loadKw: number[];
  acArrayKw: number[];
  /** thresholds in force then */
  thresholds: Thresholds;
  /** what the inverters of each phase could carry then [kW] */
  inverterLimitKw: number[];
  /** why the load was too high, and on which phases (0, 1, 2); null: it was not, by the load alone */
  excess: Excess | null;
  phases: number[];
  /** array on offer then [kW] */
  arrayKw: number;
  /** array on offer and load of the days before [kWh a day], and the mean of the whole period */
  daysBefore: number;
  arrayKwhADay: number;
  loadKwhADay: number;
  usualArrayKwhADay: number;
  usualLoadKwhADay: number;
  /** mean outside air of those days [°C]; null: not known */
  airC: number | null;
  /** cells then [°C] */
  cellC: number;
}

/** Weather and load of so many days lead to a start. */
const DAYS_BEFORE = 3;

/** @param run place in the ledger's runs */
export function stateAtStart(result: AlternativeResult, run: number): StartState {
  const { inputs, plant, controls, columns, ledger } = result;
  const { startH, socStart } = ledger.runs[run];
  const stepH = inputs.stepMin / 60;
  const askedH = startH - (plant.generator?.startDelayH ?? 0);
  const step = Math.min(inputs.count - 1, Math.max(0, Math.floor(askedH / stepH + 1e-9)));
  const before = Math.max(0, step - 1);
  const last = ledger.runs[run - 1];
  const cellC = plant.cabinet ? columns.cellC[before] : plant.roomC;
  const loadKw = inputs.loadKw.map((phase) => phase[step]);
  const acKw = inputs.acArrayKw?.[step] ?? 0;
  const acArrayKw = plant.acArrayShare.map((share) => share * acKw);
  const inverterLimitKw = inverterLimits(result, step, columns.cabinetC[before]);
  const thresholds = thresholdsAt(controls, inputs, step);
  const { startSoc, stopSoc } = plant.battery ? thresholds : { startSoc: null, stopSoc: null };
  const from = Math.max(0, step - Math.round((24 * DAYS_BEFORE) / stepH));
  const days = ((step - from) * stepH) / 24;
  const aDay = (values: readonly (Float64Array | undefined)[], a: number, b: number) =>
    b > a ? energyKwh(values, a, b, stepH) / (((b - a) * stepH) / 24) : 0;
  const arrays = [inputs.dcArrayKw, inputs.acArrayKw];
  return {
    step,
    socFrac: plant.battery ? socStart : null,
    lowForH:
      startSoc === null || plant.battery?.display
        ? null
        : stepsSince(step, (i) => columns.socFrac[i] > startSoc) * stepH,
    sinceFullH: stopSoc === null ? null : sinceAtLeast(columns.socFrac, stopSoc, step, stepH),
    heldBack: heldBackBy(result, step, cellC, thresholds),
    sinceRunH: last ? startH - last.endH : null,
    afterLongestRun: last !== undefined && last.onLoadH >= controls.maxRunH - 1e-6,
    loadKw,
    acArrayKw,
    thresholds,
    inverterLimitKw,
    ...excessOf(result, step, loadKw, acArrayKw, inverterLimitKw, thresholds),
    arrayKw: acKw + (inputs.dcArrayKw?.[step] ?? 0),
    daysBefore: days,
    arrayKwhADay: aDay(arrays, from, step),
    loadKwhADay: aDay(inputs.loadKw, from, step),
    usualArrayKwhADay: aDay(arrays, 0, inputs.count),
    usualLoadKwhADay: aDay(inputs.loadKw, 0, inputs.count),
    airC: inputs.airC && step > from ? mean(inputs.airC.subarray(from, step)) : null,
    cellC,
  };
}

/** What the inverters of each phase carry at a cabinet temperature, without units that are out of service [kW]. */
function inverterLimits({ plant, inputs }: AlternativeResult, step: number, cabinetC: number): number[] {
  const { ratedKw, derateKneeC, derateC, derateFrac, units = 1 } = plant.inverter;
  const airC = plant.cabinet ? cabinetC : plant.roomC;
  const limitKw = ratedKw * deratingFactor(airC, derateKneeC, (1 - derateFrac) / (derateC - derateKneeC));
  return inputs.loadKw.map((_, k) => (limitKw * (units - (inputs.unitsOut?.[k][step] ?? 0))) / units);
}

function excessOf(
  { plant, inputs }: AlternativeResult,
  step: number,
  loadKw: readonly number[],
  acArrayKw: readonly number[],
  limitKw: readonly number[],
  { peakStartKw }: Thresholds,
): { excess: Excess | null; phases: number[] } {
  if (peakStartKw === null) return { excess: null, phases: [] };
  const needKw = loadKw.map((kw, k) => Math.max(0, kw - acArrayKw[k]));
  const above = (kw: (k: number) => number) => needKw.flatMap((need, k) => (need > kw(k) ? [k] : []));
  const overLimit = above((k) => limitKw[k]);
  if (overLimit.length > 0) return { excess: 'inverters', phases: overLimit };
  const overThreshold = above(() => peakStartKw);
  if (overThreshold.length > 0) return { excess: 'threshold', phases: overThreshold };
  const { lossLinear, lossQuadraticPerKw, idleKw } = plant.inverter;
  const drawKw = needKw.reduce(
    (sum, kw) => sum + dcDrawKw(kw, lossLinear, lossQuadraticPerKw) + idleKw,
    plant.battery?.standbyKw ?? 0,
  );
  const given = (plant.battery?.maxDischargeKw ?? 0) + (inputs.dcArrayKw?.[step] ?? 0);
  return { excess: drawKw > given ? 'battery' : null, phases: [] };
}

function heldBackBy(
  { inputs, plant, columns }: AlternativeResult,
  step: number,
  cellC: number,
  { urgentSoc }: Thresholds,
): StartState['heldBack'] {
  const { restricted } = inputs;
  const urgent = step > 0 && columns.socFrac[step - 1] <= urgentSoc + 1e-9;
  if (restricted?.[step] === 1) return urgent ? 'urgent in hours' : null;
  if (urgent && plant.battery && cellC <= plant.battery.chargeNoneC) return 'urgent in frost';
  return restricted && step > 0 && restricted[step - 1] === 1 ? 'hours ended' : null;
}

/** Steps before this one, counted back, until one at whose end the condition holds. */
function stepsSince(step: number, holds: (i: number) => boolean): number {
  let i = step - 1;
  while (i >= 0 && !holds(i)) i--;
  return step - 1 - i;
}

function sinceAtLeast(socFrac: Float64Array, soc: number, step: number, stepH: number): number | null {
  const steps = stepsSince(step, (i) => socFrac[i] >= soc - 1e-6);
  return steps === step ? null : steps * stepH;
}

function energyKwh(
  kw: readonly (Float64Array | undefined)[],
  from: number,
  to: number,
  stepH: number,
): number {
  let sum = 0;
  for (const values of kw) if (values) for (let i = from; i < to; i++) sum += values[i];
  return sum * stepH;
}

function mean(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
