import type { GeneratorRun } from '../sim/ledger.ts';
import type { Rerunner } from './rerun.ts';
import { type Around, causeThen, leastThatAvoids, movedTo, outcomeOf } from './why-start-outcome.ts';
import type { Block, Remedy } from './why-start-remedies.ts';
import type { StartState } from './why-start-state.ts';

/** Of the load in the stretch, a twentieth at a time and at most half is moved. */
const SHARE_UNIT = 0.05;
const MOST_SHARES = 10;
/** Before a start on a low battery, load of this long [h] is moved, into the sun of the day after. */
const BEFORE_H = 12;
/** Load moves by at most a day [h]. */
const WITHIN_H = 24;

/**
 * A share of one day's load made at another time: before a start on a low battery, load of the twelve hours before
 * it moved into the sunniest hours of the day after; at a start on a high load, that phase's load of the run moved
 * into its quietest hours of the day after.
 * @returns none for other causes, where nothing is to be moved, or too near the end of the period
 */
export function movedLoad(
  rerunner: Rerunner,
  run: GeneratorRun,
  state: StartState,
  around: Around,
): Remedy[] {
  const block = blockOf(rerunner, run, state);
  if (block === null || block.kwh <= 0) return [];
  const { result } = rerunner;
  const { stepMin, count } = result.inputs;
  // a day more, so that deadlines of the last day looked at are known
  const until = Math.min(count, Math.ceil(((around.toH + WITHIN_H) * 60) / stepMin));
  const runsWith = (shares: number) =>
    rerunner.withLoad(loadMoved(result.inputs.loadKw, block, shares * SHARE_UNIT), until).runs;
  const before = result.ledger.runs;
  const { amount, outcome } = leastThatAvoids(MOST_SHARES, (n) => outcomeOf(around, before, runsWith(n)));
  const after = runsWith(amount);
  return [
    {
      kind: 'block',
      outcome,
      from: 0,
      to: Number((amount * SHARE_UNIT).toFixed(4)),
      unit: SHARE_UNIT,
      changes: {},
      movedToH: outcome === 'moved' ? movedTo(around, before, after) : null,
      causeThen: causeThen(around, after),
      whole: null,
      block: { ...block, kwh: block.kwh * amount * SHARE_UNIT },
    },
  ];
}

/** The stretch with all its load, and where it may go; null where there is neither. */
function blockOf({ result }: Rerunner, run: GeneratorRun, state: StartState): Block | null {
  const { loadKw, stepMin, count, dcArrayKw, acArrayKw } = result.inputs;
  const steps = (hours: number) => Math.round((hours * 60) / stepMin);
  let { step: fromStep, step: toStep } = state;
  let phases = loadKw.map((_, k) => k);
  const isLow = run.cause === 'charge' || run.cause === 'hand';
  if (isLow) fromStep = Math.max(0, fromStep - steps(BEFORE_H));
  else if (run.cause === 'peak') {
    toStep = Math.max(fromStep + 1, Math.ceil((run.endH * 60) / stepMin));
    if (state.phases.length > 0) phases = state.phases;
  } else return null;
  const length = toStep - fromStep;
  const latest = Math.min(count, toStep + steps(WITHIN_H)) - length;
  if (length === 0 || latest < toStep) return null;
  const end = latest + length;
  const load = summed(
    phases.map((k) => loadKw[k]),
    fromStep,
    end,
  );
  const light = summed([dcArrayKw, acArrayKw], fromStep, end);
  // quietest: the least highest load; sunniest: the most array
  const isBetter = isLow
    ? (a: number, b: number) => sum(light, a - fromStep, length) > sum(light, b - fromStep, length) + 1e-9
    : (a: number, b: number) =>
        highest(load, a - fromStep, length) < highest(load, b - fromStep, length) - 1e-9;
  const hop = Math.max(1, Math.round(30 / stepMin));
  let intoStep = toStep;
  for (let at = toStep; at <= latest; at += hop) if (isBetter(at, intoStep)) intoStep = at;
  const kwh = (sum(load, 0, length) * stepMin) / 60;
  return { fromStep, toStep, intoStep, kwh, phases };
}

/** The same load with a share of the block's phases moved; its shape goes with it, its energy stays the same. */
export function loadMoved(loadKw: readonly Float64Array[], block: Block, share: number): Float64Array[] {
  return loadKw.map((phase, k) => {
    if (!block.phases.includes(k)) return phase;
    const moved = phase.slice();
    for (let i = block.fromStep; i < block.toStep; i++) {
      moved[i] -= share * phase[i];
      moved[block.intoStep + i - block.fromStep] += share * phase[i];
    }
    return moved;
  });
}

/** Sum of series over steps `from` to `to` (not included). */
function summed(series: readonly (Float64Array | undefined)[], from: number, to: number): Float64Array {
  const total = new Float64Array(to - from);
  for (const values of series) if (values) for (let i = from; i < to; i++) total[i - from] += values[i];
  return total;
}

function sum(values: Float64Array, from: number, length: number): number {
  let total = 0;
  for (let i = from; i < from + length; i++) total += values[i];
  return total;
}

function highest(values: Float64Array, from: number, length: number): number {
  let most = 0;
  for (let i = from; i < from + length; i++) most = Math.max(most, values[i]);
  return most;
}
