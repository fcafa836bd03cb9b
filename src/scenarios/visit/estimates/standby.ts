import type { Plant } from '../../../sim/plant.ts';
import type { Estimate } from '../visit.ts';
import { ClusteredRows, clusteredError } from './clustered-fit.ts';
import { type LogView, missing, steadyOwnUse } from './log-view.ts';
import { fitted, refused } from './outcome.ts';
import { meanSquareFrom, quantumOf, unrounded } from './rounding.ts';

const LEAST_NIGHTS = 8;
const LEAST_STEPS = 100;
/** A load that changes within a step loses more than its mean shows: steps unlike their neighbours are left out ... */
const STEADY = 0.1;
const STEADY_KW = 0.03;
/** ... where so many are left */
const STEADY_SHARE = 0.25;
/** Readings err by about this share of themselves: it only weighs small loads against large ones. */
const READING_ERROR = 0.01;
/** A standard error of more than this share says nothing. */
const MOST_ERROR = 0.5;
const ROUNDING_TRIES = 12;

/**
 * What the battery gives at no load, from nights in which nothing else feeds the site: the difference of what it gives
 * and what the load takes, drawn against the load as both readings tell it.
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
  const quiet = quietSteps(view, batteryKw, own.off);
  const steady = quiet.filter((i) => isSteady(loadKw, i));
  const steps = steady.length >= STEADY_SHARE * quiet.length ? steady : quiet;
  const nights = new Set(steps.map((i) => view.night[i])).size;
  if (nights < LEAST_NIGHTS || steps.length < LEAST_STEPS)
    return refused(key, 'too-little', `${nights} nights, ${LEAST_NIGHTS} needed`);
  const quantum = quantumOf(batteryKw);
  const found = standbyOf(view, steps, batteryKw, loadKw, quantum);
  const not = refused(key, 'not-told-apart', 'a load that varies at night');
  if (found === null) return not;
  const loads = unrounded(loadKw, quantumOf(loadKw), ROUNDING_TRIES, 'taken');
  const tries = unrounded(batteryKw, quantum, ROUNDING_TRIES, 'given').flatMap(
    (kw, t) => standbyOf(view, steps, kw, loads[t] ?? loadKw, quantum)?.value ?? [],
  );
  const error = Math.hypot(found.error, Math.sqrt(meanSquareFrom(found.value, tries)));
  if (!(found.value > 0 && error < MOST_ERROR * found.value)) return not;
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

function isSteady(loadKw: Float64Array, i: number): boolean {
  const most = STEADY * loadKw[i] + STEADY_KW;
  return Math.abs(loadKw[i] - loadKw[i - 1]) <= most && Math.abs(loadKw[i] - loadKw[i + 1]) <= most;
}

function standbyOf(
  { night, phaseKw, plant }: LogView,
  steps: readonly number[],
  batteryKw: Float64Array,
  loadKw: Float64Array,
  quantum: number,
): { value: number; error: number } | null {
  const rows = new ClusteredRows(3);
  const [givenKw, takenKw] = [median(steps.map((i) => -batteryKw[i])), median(steps.map((i) => loadKw[i]))];
  const aboutKw = givenKw - takenKw;
  // readings err in proportion: so weighed, the error of the load does not depend on that of the difference
  const own = givenKw ** 2 / (givenKw ** 2 + takenKw ** 2);
  for (const i of steps) {
    const given = -batteryKw[i];
    const load = own * loadKw[i] + (1 - own) * (given - aboutKw);
    const square = unevenness(phaseKw, plant.phases, i) * load ** 2;
    if (Number.isNaN(square)) continue;
    const variance = 2 * (READING_ERROR * load) ** 2 + quantum ** 2 / 6 + 1e-8;
    rows.add(night[i], [1, load, square], given - loadKw[i], 1 / variance);
  }
  const fit = rows.fit();
  if (fit === null) return null;
  // at no load the difference itself makes up the load as weighed
  const [base, slope] = fit.beta;
  const share = 1 - slope * (1 - own);
  const value = (base - slope * (1 - own) * aboutKw) / share;
  const bySlope = ((1 - own) * (value - aboutKw)) / share;
  return { value, error: clusteredError([{ fit, slopes: [1 / share, bySlope, 0] }]) };
}

/**
 * Sum of the squares of the phases' shares of the load: the square of the loss curve by the load of all phases. From
 * the phases alone, as their errors must not follow that of the whole.
 */
function unevenness(phaseKw: readonly Float64Array[] | null, phases: number, i: number): number {
  const loads = phaseKw?.map((kw) => kw[i]) ?? new Array<number>(phases).fill(1);
  const sum = loads.reduce((all, kw) => all + kw, 0);
  return sum > 0 ? loads.reduce((squares, kw) => squares + (kw / sum) ** 2, 0) : 1 / phases;
}

function median(values: readonly number[]): number {
  const sorted = Float64Array.from(values).sort();
  return sorted[Math.floor(sorted.length / 2)];
}
