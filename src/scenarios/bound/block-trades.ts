import type { Totals } from '../../sim/ledger.ts';
import { simulate } from '../../sim/simulate.ts';
import { type Block, mostBesideKw, NOTHING_KWH, ratedOwnKw, readStep, type SimulatedRun } from './block.ts';
import type { Engine, Limits } from './limits.ts';
import { looseTrade } from './loose-trade.ts';
import { stepTrade } from './step-modes.ts';
import { sumOfTrades, type Trade } from './trade.ts';

/** A run in blocks of whole steps (hours), and what each block could have stored against what it burns. */
export interface Blocks {
  /** length of each [h]; the last may be shorter */
  hours: Float64Array;
  trades: Trade[];
  /** what the run had stored at the end of each [kWh] */
  storedKwh: Float64Array;
  /** blocks in which what was served, and when, is only known as a sum */
  loose: number;
}

/**
 * Simulates a run again with its sums by blocks, and works out what each could have done while it serves the same.
 * @param blockMin length of a block [min]; longer steps are blocks of their own
 */
export function blockTrades(run: SimulatedRun, limits: Limits, blockMin = 60): Blocks {
  const { plant, controls, inputs, columns } = run;
  const steps = Math.max(1, Math.round(blockMin / inputs.stepMin));
  const count = Math.ceil(inputs.count / steps);
  const ends = Array.from({ length: count }, (_, t) => Math.min((t + 1) * steps, inputs.count));
  const { periods } = simulate(plant, controls, inputs, { periodEnds: ends });
  const hours = Float64Array.from(ends, (end, t) => ((end - t * steps) * inputs.stepMin) / 60);
  const capacityKwh = plant.battery?.capacityKwh ?? 0;
  const storedKwh = Float64Array.from(ends, (end) => columns.socFrac[end - 1] * capacityKwh);
  let loose = 0;
  const trades = ends.map((end, t) => {
    const block = { run, limits, from: t * steps, to: end, hours: hours[t], sums: periods[t] };
    const trade = steadyTrade(block);
    if (trade === null) loose++;
    return trade ?? looseTrade(block);
  });
  return { hours, trades, storedKwh, loose };
}

/** The block step by step where everything wanted was served all through it; else null. */
function steadyTrade(block: Block): Trade | null {
  const { run, limits, from, to, hours, sums } = block;
  const isShed = sums.shedKwh > NOTHING_KWH;
  if (sums.unservedKwh > NOTHING_KWH || (isShed && sums.shedH < hours - NOTHING_KWH)) return null;
  const h = run.inputs.stepMin / 60;
  const known = besideIsKnown(block);
  const besideKwh = ownAndShiftedKwh(sums);
  const { phases } = run.plant;
  const trades: Trade[] = [];
  let standingKwh = 0;
  for (let i = from; i < to; i++) {
    const given = readStep(run, i, isShed);
    standingKwh += given.standingKw * h;
    for (let k = 0; k < phases; k++) {
      if (known) given.wantKw[k] += besideKwh / hours / phases;
      else given.besideKw[k] = mostBesideKw(run.plant, k);
    }
    const trade = stepTrade(limits, engineAt(block, i), given);
    if (trade === null) return null;
    trades.push(timesHours(trade, h));
  }
  // an idle or standby draw that was less than all: the site was off for a time
  if (Math.abs(standingKwh - sums.idleKwh - sums.standbyKwh) > NOTHING_KWH * Math.max(1, standingKwh))
    return null;
  const trade = sumOfTrades(trades);
  // each kWh beside the load costs at least what charging would have made of it
  const lessKwh = known ? 0 : besideKwh * limits.chargerEff * limits.chargeEff;
  return { ...trade, storedKwh: trade.storedKwh - lessKwh };
}

/** Own use and shifted load: whether its power in this block and on each phase is known. */
function besideIsKnown({ run, from, to, sums }: Block): boolean {
  const { plant, inputs } = run;
  if (to - from > 1 || sums.shiftedKwh > NOTHING_KWH) return false;
  if (plant.phases > 1 && sums.shiftForcedKwh > NOTHING_KWH) return false;
  // own use on a phase without load is not missed when it is not served
  return ratedOwnKw(plant) === 0 || inputs.loadKw.every((kw) => kw[from] > 0);
}

function ownAndShiftedKwh({ climateKwh, ownKwh, shiftedKwh, shiftForcedKwh }: Totals): number {
  return Math.max(0, climateKwh + ownKwh + shiftedKwh + shiftForcedKwh);
}

/** The set that may run in a step: both where the second one did in this block. */
function engineAt({ limits, run, sums }: Block, i: number): Engine | null {
  if (sums.secondRunH > NOTHING_KWH) return limits.both;
  return run.inputs.outOfOrder?.[i] === 1 ? null : limits.first;
}

function timesHours(trade: Trade, hours: number): Trade {
  return {
    leastL: trade.leastL * hours,
    storedKwh: trade.storedKwh * hours,
    generatedKwh: trade.generatedKwh * hours,
    stretches: trade.stretches.map((stretch) => ({ ...stretch, litres: stretch.litres * hours })),
  };
}
