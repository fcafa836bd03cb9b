import type { FuelBound } from '../scenarios/bound/fuel-bound.ts';
import type { AlternativeResult } from '../scenarios/study.ts';
import { spanWords } from './facts.ts';
import { alone, digits } from './numbers.ts';
import { daySpan, hoursOfStep, localMs, type StudyView } from './view.ts';
import { counted, listed } from './words.ts';

/** Parts of the difference below this are not told [L]. */
const WORTH_TELLING_L = 0.5;

/** "These thresholds burn 4,310 L a year; nothing could burn less than 3,920 L …", and where the difference went. */
export function boundSentences(result: AlternativeResult, bound: FuelBound): string[] {
  const { ranL, leastL } = bound;
  const span = spanWords(result.ledger);
  if (ranL === 0) return [`These thresholds burn no fuel ${span}, and nothing could burn less.`];
  const least =
    leastL < WORTH_TELLING_L
      ? 'nothing is proven to be needed'
      : `nothing could burn less than ${alone('litres', leastL)}`;
  const sentences = [
    `These thresholds burn ${alone('litres', ranL)} ${span}; with this plant, weather and load ${least}.`,
    ...gapSentences(result, bound),
  ];
  const { looseBlocks } = bound.foresight;
  if (looseBlocks > 0)
    sentences.push(
      `In ${counted(digits(looseBlocks), 'hour')} load was missed, shed or shifted for a part of the time; only sums are used there, and the bound is lower for it.`,
    );
  return sentences;
}

/** Where the difference went, the greatest part first. */
function gapSentences({ ledger }: AlternativeResult, bound: FuelBound): string[] {
  const gapL = bound.ranL - bound.leastL;
  const parts = [
    {
      litres: bound.moreGeneratedL,
      into: `into ${alone('kwh', bound.moreGeneratedKwh)} more than foresight generates`,
    },
    { litres: bound.aroundStartsL, into: 'into warming up and cooling down' },
    { litres: bound.loadingL, into: 'into running at loads that take more litres a kilowatt-hour' },
  ].filter(({ litres }) => litres >= WORTH_TELLING_L);
  if (gapL < WORTH_TELLING_L || parts.length === 0) return [];
  parts.sort((a, b) => b.litres - a.litres);
  const went = parts.map(
    ({ litres, into }, i) => `${alone('litres', litres)} ${i === 0 ? 'went ' : ''}${into}`,
  );
  const sentences = [`Of the ${alone('litres', gapL)} between, ${listed(went)}.`];
  if (bound.moreGeneratedL < WORTH_TELLING_L) return sentences;
  const peakKwh = ledger.runs.reduce((sum, { cause, kwh }) => sum + (cause === 'peak' ? kwh : 0), 0);
  const peaks =
    peakKwh >= 0.1 * ledger.totals.generatorKwh
      ? ` Runs that a peak started generated ${alone('kwh', peakKwh)} of ${alone('kwh', ledger.totals.generatorKwh)}.`
      : '';
  sentences.push(
    `More is generated than is needed when the battery is too full for the sun that follows, or when the engine runs for load that the inverters could carry.${peaks}`,
  );
  return sentences;
}

/** What the bound is and is not, wherever it is shown. */
export const BOUND_NOTE =
  'The bound knows the weather to come, runs the engine for any part of an hour at no cost of starting, keeps no minimum run and no restricted hours, and takes cells and inverters as never too cold or too hot; it serves in each hour what was served, and ends with as much stored. So no thresholds come down to it: it says that below it there is nothing to find.';

/** Run and foresight in a span of steps: output by step [kW], state of charge at the end of each. */
export interface ForesightWeek {
  fromStep: number;
  toStep: number;
  ranKw: Float64Array;
  foresightKw: Float64Array;
  ranSoc: Float64Array;
  /** null: no battery */
  foresightSoc: Float64Array | null;
}

/** The dark week (or the whole of a short run) as it ran and as foresight would have run it. */
export function foresightWeek(result: AlternativeResult, { foresight }: FuelBound): ForesightWeek {
  const { columns, inputs, darkWeek, ledger } = result;
  const fromStep = darkWeek?.fromStep ?? 0;
  const toStep = darkWeek?.toStep ?? ledger.count;
  const perBlock = Math.max(1, Math.round((foresight.hours[0] * 60) / inputs.stepMin));
  const steps = Array.from({ length: toStep - fromStep }, (_, i) => fromStep + i);
  const { socFrac, generatorKw } = foresight;
  const startSoc = result.plant.battery?.initialSoc ?? 0;
  // only ends of blocks are known: in between it is drawn straight
  const socAt = (soc: Float64Array, step: number) => {
    const block = Math.floor(step / perBlock);
    const part = (step - block * perBlock + 1) / perBlock;
    const before = block === 0 ? startSoc : soc[block - 1];
    return before + (soc[block] - before) * Math.min(1, part);
  };
  return {
    fromStep,
    toStep,
    ranKw: columns.generatorKw.subarray(fromStep, toStep),
    foresightKw: Float64Array.from(steps, (step) => generatorKw[Math.floor(step / perBlock)]),
    ranSoc: columns.socFrac.subarray(fromStep, toStep),
    foresightSoc: socFrac && Float64Array.from(steps, (step) => socAt(socFrac, step)),
  };
}

/** What the drawing of the dark week shows. */
export function foresightTitle(view: StudyView, result: AlternativeResult, week: ForesightWeek): string {
  const { fromStep, toStep, ranKw, foresightKw } = week;
  const first = localMs(view, hoursOfStep(view, fromStep));
  const last = localMs(view, hoursOfStep(view, toStep) - 0.01);
  const span = result.darkWeek ? `${daySpan(first, last)}, the dark week` : daySpan(first, last);
  const kwh = (kw: Float64Array) =>
    alone('kwh', (kw.reduce((sum, each) => sum + each, 0) * result.inputs.stepMin) / 60);
  return `${span}: the rules generate ${kwh(ranKw)}, foresight ${kwh(foresightKw)}`;
}
