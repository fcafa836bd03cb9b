import type { Plant } from '../../../sim/plant.ts';
import type { Estimate } from '../visit.ts';
import { ClusteredRows, clusteredError } from './clustered-fit.ts';
import { type LogView, missing, steadyOwnUse } from './log-view.ts';
import { fitted, refused } from './outcome.ts';
import { meanSquareFrom, quantumOf, unrounded } from './rounding.ts';

const LEAST_NIGHTS = 8;
const LEAST_STEPS = 100;
/** Readings err by about this share of themselves: it only weighs small loads against large ones. */
const READING_ERROR = 0.01;
const ROUNDING_TRIES = 12;

/**
 * What the battery gives at no load, from nights in which nothing else feeds the site: the difference of what it gives
 * and what the load takes, drawn against the mean of the two, whose errors of reading do not depend on each other.
 */
export function standbyKw(view: LogView): Estimate {
  const key = 'standbyKw';
  const { plant, loadKw, arrayKw, running } = view;
  const batteryKw = view.column('batteryKw');
  const { battery } = plant;
  if (battery === null) return refused(key, 'not-told-apart', 'a battery in the site file');
  const lacks = missing({ loadKw, arrayKw, batteryKw, generatorOn: running });
  if (lacks !== '' || batteryKw === null || loadKw === null) return refused(key, 'no-column', lacks);
  if ((plant.shiftable ?? []).length > 0) return refused(key, 'not-told-apart', 'loads that do not shift');
  const own = steadyOwnUse(view);
  if ('lacks' in own) return refused(key, 'no-column', own.lacks);
  const steps = quietSteps(view, batteryKw, own.off);
  const nights = new Set(steps.map((i) => view.night[i])).size;
  if (nights < LEAST_NIGHTS || steps.length < LEAST_STEPS)
    return refused(key, 'too-little', `${nights} nights, ${LEAST_NIGHTS} needed`);
  const found = standbyOf(view, steps, batteryKw, loadKw);
  if (found === null) return refused(key, 'not-told-apart', 'a load that varies at night');
  const tries = unrounded(batteryKw, quantumOf(batteryKw), ROUNDING_TRIES, 'given').flatMap((kw, t) => {
    const load = unrounded(loadKw, quantumOf(loadKw), ROUNDING_TRIES, 'taken')[t] ?? loadKw;
    return standbyOf(view, steps, kw, load)?.value ?? [];
  });
  const error = Math.hypot(found.error, Math.sqrt(meanSquareFrom(found.value, tries)));
  const freedom = Math.max(1, nights - 3);
  const basis = { count: nights, of: 'nights' } as const;
  return fitted(key, { value: found.value, error, freedom }, view, { designed: designedKw(plant), basis });
}

/** With what the generator's own controller draws at all times, through the inverters. */
function designedKw({ battery, inverter, phases, generator }: Plant): number {
  const standing = (generator?.standingKw ?? 0) * (1 + inverter.lossLinear);
  return (battery?.standbyKw ?? 0) + inverter.idleKw * phases + standing;
}

/** Steps in which the battery alone carries the load, and neighbours are so too. */
function quietSteps(view: LogView, batteryKw: Float64Array, ownOff: Uint8Array): number[] {
  const { count, arrayKw, running, loadKw, plant } = view;
  const [array, runs, load] = [arrayKw, running, loadKw] as [Float64Array, Float64Array, Float64Array];
  const soc = view.column('socFrac');
  const { battery } = plant;
  const off = battery ? battery.cutoffSoc + battery.reconnectSoc + 0.01 : 0;
  const dark = (i: number) => array[i] === 0 && runs[i] === 0;
  const steps: number[] = [];
  for (let i = 1; i < count - 1; i++) {
    if (!dark(i) || !dark(i - 1) || !dark(i + 1) || ownOff[i] === 0) continue;
    if (!(batteryKw[i] < 0) || Number.isNaN(load[i])) continue;
    // a site that is cut off has neither load nor idle draw
    if (load[i] === 0 && (soc === null || !(soc[i - 1] > off))) continue;
    steps.push(i);
  }
  return steps;
}

function standbyOf(
  { night, phaseKw, plant }: LogView,
  steps: readonly number[],
  batteryKw: Float64Array,
  loadKw: Float64Array,
): { value: number; error: number } | null {
  const rows = new ClusteredRows(3);
  const quantum = quantumOf(batteryKw);
  for (const i of steps) {
    const given = -batteryKw[i];
    const middle = (given + loadKw[i]) / 2;
    const square = phaseKw
      ? phaseKw.reduce((sum, kw) => sum + kw[i] * kw[i], 0)
      : loadKw[i] ** 2 / plant.phases;
    if (Number.isNaN(square)) continue;
    const variance = 2 * (READING_ERROR * middle) ** 2 + quantum ** 2 / 6 + 1e-8;
    rows.add(night[i], [1, middle, square], given - loadKw[i], 1 / variance);
  }
  const fit = rows.fit();
  if (fit === null) return null;
  // at no load the mean of given and taken is half of what is given
  const [base, slope] = fit.beta;
  const value = base / (1 - slope / 2);
  const slopes = [1 / (1 - slope / 2), base / (2 * (1 - slope / 2) ** 2), 0];
  return { value, error: clusteredError([{ fit, slopes }]) };
}
