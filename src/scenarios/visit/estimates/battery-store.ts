import type { Plant } from '../../../sim/plant.ts';
import type { Estimate } from '../visit.ts';
import { type ClusteredFit, ClusteredRows, clusteredError } from './clustered-fit.ts';
import { type Day, lastChange } from './daily-ratio.ts';
import { type LogView, missing } from './log-view.ts';
import { mixed } from './mixed.ts';
import { fitted, refused } from './outcome.ts';
import { meanSquareFrom, unrounded } from './rounding.ts';

type Battery = NonNullable<Plant['battery']>;

/** A day counts when the shown charge swings by at least this much in it. */
const LEAST_SWING = 0.1;
/** So many days with a swing, at least. */
const LEAST_DAYS = 8;
/** Near full and empty the meter may stand at its end or be set right. */
const HIGHEST = 0.96;
const LOWEST = 0.03;
/** A step of the meter that its energy does not explain, in quanta, cuts a day in two. */
const JUMP_QUANTA = 2.5;
const ROUNDING_TRIES = 12;
/** What energy that goes in and out within a step hides, as shares (simulated: logs of 5 and 10 minutes). */
const HIDDEN = { usableKwh: 0.0003, oneWayEfficiency: 0.0005 };
/** How much a lead-acid bank holds depends on how fast it is drawn, which one number cannot tell (simulated: to 1.5 %). */
const HIDDEN_LEAD_ACID = 0.01;

/**
 * Capacity and efficiency from how the shown charge follows the energy into and out of the battery, within each day:
 * soc = start + charged·eta/capacity − discharged/(eta·capacity) + drift·time. Levels are read with rounding, energies
 * are nearly exact, so that charge is fitted to energy. What drifts evenly is fitted too, and what is lost in steps that
 * both charged and discharged: their mean hides energy that went in and out again. Where another battery took the old
 * one's place within the log, it is of the last one.
 */
export function batteryStore(view: LogView): [Estimate, Estimate] {
  const soc = view.column('socFrac');
  const batteryKw = view.column('batteryKw');
  const refuse = (
    why: 'no-column' | 'too-little' | 'not-told-apart',
    lacks: string,
  ): [Estimate, Estimate] => [refused('usableKwh', why, lacks), refused('oneWayEfficiency', why, lacks)];
  const { battery } = view.plant;
  if (battery === null) return refuse('not-told-apart', 'a battery in the site file');
  if (soc === null || batteryKw === null) return refuse('no-column', missing({ socFrac: soc, batteryKw }));
  const jump = JUMP_QUANTA * Math.max(view.quantum('socFrac'), 0.004);
  const first = firstStepOfLast(view, fitStore(view, soc, batteryKw, jump, 0).days);
  const { rows } = fitStore(view, soc, batteryKw, jump, first);
  const fromS = view.startS + first * view.stepS;
  const swings = rows.count;
  if (swings < LEAST_DAYS)
    return refuse('too-little', `${swings} days with a swing of ${LEAST_SWING}, ${LEAST_DAYS} needed`);
  const fit = rows.fit();
  const store = fit && storeOf(fit);
  if (fit === null || store === null) return refuse('not-told-apart', 'days that charge and discharge');
  const tries = unrounded(batteryKw, view.quantum('batteryKw'), ROUNDING_TRIES, 'battery').flatMap((kw) => {
    const again = fitStore(view, soc, kw, jump, first).rows.fit();
    const other = again && storeOf(again);
    return other ? [other] : [];
  });
  const basis = { count: swings, of: 'swings' } as const;
  const freedom = Math.max(1, swings - 3);
  const make = (key: 'usableKwh' | 'oneWayEfficiency', designed: number, [into, out]: [number, number]) => {
    const slopes = fit.beta.map((_, j) => [into, out][j] ?? 0);
    const rounding = meanSquareFrom(
      store[key],
      tries.map((each) => each[key]),
    );
    const isRateBound = view.site.battery?.leadAcid && key === 'usableKwh';
    const hidden = (isRateBound ? HIDDEN_LEAD_ACID : HIDDEN[key]) * store[key];
    const error = Math.hypot(clusteredError([{ fit, slopes }]), Math.sqrt(rounding), hidden);
    return fitted(key, { value: store[key], error, freedom }, view, { designed, basis, fromS });
  };
  const [into, out] = fit.beta;
  const { usableKwh: c, oneWayEfficiency: eta } = store;
  return [
    make('usableKwh', battery.capacityKwh, [-c / (2 * into), -c / (2 * out)]),
    make('oneWayEfficiency', Math.sqrt(battery.chargeEff * battery.dischargeEff), [
      eta / (2 * into),
      -eta / (2 * out),
    ]),
  ];
}

function storeOf({
  beta: [into, out],
}: ClusteredFit): Record<'usableKwh' | 'oneWayEfficiency', number> | null {
  if (!(into > 0 && out > 0)) return null;
  return { usableKwh: 1 / Math.sqrt(into * out), oneWayEfficiency: Math.sqrt(into / out) };
}

/** The first step of the battery that is there at the end: shown charge follows energy by its capacity. */
function firstStepOfLast({ day }: LogView, days: readonly Day[]): number {
  const from = lastChange(days);
  return from === 0 ? 0 : day.indexOf(days[from].day);
}

/** A swing as the battery of the site file would show it: what it stores and gives, by energy. */
function swingOf(
  stretch: readonly number[][],
  { chargeEff, dischargeEff, capacityKwh }: Battery,
  of: Day,
): void {
  const as = (row: readonly number[]) => (row[1] * chargeEff + row[2] / dischargeEff) / capacityKwh;
  const [level, shown] = [mean(stretch.map((row) => row[0])), mean(stretch.map(as))];
  for (const row of stretch) {
    of.measured += (row[0] - level) * (as(row) - shown);
    of.expected += (as(row) - shown) ** 2;
  }
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/**
 * Rows of all days from a step on, each less its day's mean, so that every day has a start of its own; and of each day
 * how the shown charge swung, and how it should have.
 */
function fitStore(
  view: LogView,
  soc: Float64Array,
  batteryKw: Float64Array,
  jump: number,
  first: number,
): { rows: ClusteredRows; days: Day[] } {
  const { count, hours, day, plant } = view;
  const days: Day[] = [];
  const mixedKw = mixed(batteryKw);
  const rows = new ClusteredRows(mixedKw.some((kw) => kw > 0) ? 4 : 3);
  const capacity = plant.battery?.capacityKwh ?? 1;
  let stretch: number[][] = [];
  let [into, out, time, both] = [0, 0, 0, 0];
  const close = (cluster: number) => {
    if (addCentred(rows, cluster, stretch) && plant.battery) {
      if (days.at(-1)?.day !== cluster) days.push({ day: cluster, measured: 0, expected: 0 });
      swingOf(stretch, plant.battery, days[days.length - 1]);
    }
    stretch = [];
    [into, out, time, both] = [0, 0, 0, 0];
  };
  for (let i = Math.max(1, first); i < count; i++) {
    const usable = soc[i] < HIGHEST && soc[i] > LOWEST && !Number.isNaN(batteryKw[i]);
    const kwh = batteryKw[i] * hours;
    const explained = Math.abs(soc[i] - soc[i - 1] - kwh / capacity) <= jump + 0.3 * Math.abs(kwh / capacity);
    if (!usable || !explained || day[i] !== day[i - 1]) close(day[i - 1]);
    if (!usable) continue;
    // the energy of the first step came before the first level
    if (stretch.length > 0) {
      if (kwh > 0) into += kwh;
      else out -= kwh;
      time += hours;
      both += mixedKw[i] * hours;
    }
    stretch.push([soc[i], into, -out, time, both]);
  }
  if (count > 0) close(day[count - 1]);
  return { rows, days };
}

/** @returns whether the stretch swings enough */
function addCentred(rows: ClusteredRows, cluster: number, stretch: readonly number[][]): boolean {
  if (stretch.length < 3) return false;
  const mean = [0, 0, 0, 0, 0];
  let [lowest, highest] = [1, 0];
  for (const row of stretch) {
    for (let j = 0; j < 5; j++) mean[j] += row[j] / stretch.length;
    lowest = Math.min(lowest, row[0]);
    highest = Math.max(highest, row[0]);
  }
  if (highest - lowest < LEAST_SWING) return false;
  for (const [level, ...x] of stretch)
    rows.add(
      cluster,
      x.map((value, j) => value - mean[j + 1]),
      level - mean[0],
    );
  return true;
}
