import type { Plant } from '../../../sim/plant.ts';
import { upperMedianOf } from '../../middle-values.ts';
import type { Estimate } from '../visit.ts';
import { ClusteredRows } from './clustered-fit.ts';
import { type LogView, missing, steadyOwnUse } from './log-view.ts';
import { fitted, refused } from './outcome.ts';
import { meanSquareFrom, type Quantum, roundingErrors, roundingLeft } from './rounding.ts';

const LEAST_NIGHTS = 8;
const LEAST_STEPS = 100;
/** A load that changes within a step loses more than its mean shows: steps unlike their neighbours are left out ... */
const STEADY = 0.1;
const STEADY_KW = 0.03;
/** ... where so many are left */
const STEADY_SHARE = 0.25;
/** Readings err by about this share of themselves (common practice): it only weighs small loads against large ones. */
const READING_ERROR = 0.01;
/** A standard error of more than this share says nothing. */
const MOST_ERROR = 0.5;
const ROUNDING_TRIES = 12;
/** Steps between readings of which one tells the other. */
const APART = 2;
/**
 * What losses of inverters may differ by from those of a data sheet, as standard deviations: the linear one by 0.01,
 * the quadratic one by half of itself (common practice). They matter where the load hardly varies at night.
 */
const LINEAR_OFF = 0.01;
const QUADRATIC_OFF = 0.5;

/**
 * What the battery gives at no load, from nights in which nothing else feeds the site: the difference of what it gives
 * and what the load takes, less what the inverters lose at that load. How much that is the nights tell themselves where
 * the load varies; where it does not, the losses are as filed, within what those may be off by.
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
  const quantum = view.quantum('batteryKw');
  const readings = readingsOf(view, batteryKw, loadKw);
  const found = standbyOf(view, steps, readings, quantum);
  const not = refused(key, 'not-told-apart', 'a load that varies at night');
  if (found === null) return not;
  const tries = Array.from({ length: ROUNDING_TRIES }, (_, turn) => {
    const other = unroundedReadings(view, steps, readings, turn);
    return standbyOf(view, steps, other, quantum)?.value ?? found.value;
  });
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

/** Powers of the steps of quiet nights: what the battery gives, what the load takes, and the squares of its phases. */
interface Readings {
  given: Float64Array;
  taken: Float64Array;
  squares: Float64Array;
}

/** Loss of the inverters as filed, with what such a value may be off by. */
function lossesHeld({ inverter }: Plant): { mean: number; sd: number }[] {
  const { lossLinear, lossQuadraticPerKw } = inverter;
  return [
    { mean: 0, sd: Number.POSITIVE_INFINITY },
    { mean: lossLinear, sd: LINEAR_OFF },
    { mean: lossQuadraticPerKw, sd: QUADRATIC_OFF * lossQuadraticPerKw },
  ];
}

/**
 * The fit of given − taken = standby + linear·load + quadratic·squares. A reading of the load that is off is off in
 * both sides of it: the load is told by its readings two steps before and after, which are off by themselves, and
 * share no row of the file with it. So it does not matter how large the errors of either meter are.
 */
function standbyOf(
  { night, plant }: LogView,
  steps: readonly number[],
  { given, taken, squares }: Readings,
  quantum: number,
): { value: number; error: number } | null {
  const rows = new ClusteredRows(3);
  const middle = upperMedianOf(steps.map((i) => taken[i]));
  const middleSquare = upperMedianOf(steps.map((i) => squares[i]));
  for (const i of steps) {
    const others = [i - APART, i + APART].filter((j) => taken[j] + squares[j] >= 0);
    if (others.length === 0 || Number.isNaN(squares[i])) continue;
    const load = mean(others.map((j) => taken[j]));
    const square = mean(others.map((j) => squares[j]));
    const variance = 2 * (READING_ERROR * load) ** 2 + quantum ** 2 / 6 + 1e-8;
    const told = [1, load - middle, square - middleSquare];
    rows.add(night[i], [1, taken[i], squares[i]], given[i] - taken[i], 1 / variance, told);
  }
  const fit = rows.held(lossesHeld(plant));
  return fit && { value: fit.beta[0], error: fit.error[0] };
}

function readingsOf({ phaseKw, plant }: LogView, batteryKw: Float64Array, loadKw: Float64Array): Readings {
  const squares = phaseKw
    ? loadKw.map((_, i) => phaseKw.reduce((sum, kw) => sum + kw[i] ** 2, 0))
    : loadKw.map((kw) => kw ** 2 / plant.phases);
  return { given: batteryKw.map((kw) => -kw), taken: loadKw, squares };
}

/** Readings as they may have been before they were rounded: of the whole load, or of its phases where it is their sum. */
function unroundedReadings(
  view: LogView,
  steps: readonly number[],
  readings: Readings,
  turn: number,
): Readings {
  const { given, taken, squares } = readings;
  const phaseKw = view.phaseKw ?? [];
  const isSum =
    phaseKw.length > 1 && steps.every((i) => taken[i] === phaseKw.reduce((sum, kw) => sum + kw[i], 0));
  const parts = isSum ? phaseKw : [taken];
  const kwQuantum =
    view.quantum(isSum || view.plant.phases === 1 ? 'load1Kw' : 'loadKw') || view.quantum('loadKw');
  const takenErrors = roundingErrors(`taken ${turn}`);
  const givenErrors = roundingErrors(`given ${turn}`);
  const partQuanta = parts.map((part) => leftOf(part, steps, kwQuantum));
  const givenQuantum = leftOf(given, steps, view.quantum('batteryKw'));
  const other = { given: given.slice(), taken: taken.slice(), squares };
  for (const i of steps) {
    other.given[i] += givenErrors(given[i], givenQuantum);
    for (const [k, part] of parts.entries()) other.taken[i] += takenErrors(part[i], partQuanta[k]);
  }
  return other;
}

/** The quantum whose rounding would leave as much in a mean as this one does in readings that tremble. */
function leftOf(values: Float64Array, steps: readonly number[], quantum: number): Quantum {
  if (quantum === 0) return { quantum, left: 0 };
  const moves = steps.map((i) => Math.abs(values[i] - values[i - 1])).filter((move) => !Number.isNaN(move));
  // of a normal error the median step is 0.6745 deviations of a difference
  const trembling = moves.length > 0 ? upperMedianOf(moves) / (0.6745 * Math.SQRT2) : 0;
  const spread = trembling ** 2 + quantum ** 2 / 12;
  return { quantum, left: Math.min(quantum, Math.sqrt(12 * roundingLeft(spread, quantum))) };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
