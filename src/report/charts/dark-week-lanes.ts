import type { AlternativeResult } from '../../scenarios/study.ts';
import type { Inputs } from '../../sim/inputs.ts';
import { alone, digits } from '../numbers.ts';
import { ARRAY, BATTERY, GENERATOR, LOAD, SOFT, UNSERVED, UNSERVED_LINE } from './palette.ts';

/** One power over a span of steps. */
export interface Lane {
  name: string;
  /** mean of each step [kW]; negative is drawn below the line */
  kw: Float64Array;
  /** drawn as a line over the area [kW] */
  outlineKw: Float64Array | null;
  lowest: number;
  highest: number;
  fill: string;
  /** of the outline */
  stroke: string;
  /** what the span amounts to, long and short */
  words: string;
  shortWords: string;
}

/** What of a simulated alternative is drawn over a few days. */
export type DrawnDays = Pick<AlternativeResult, 'plant' | 'controls' | 'inputs' | 'columns'>;

/** The powers that a site has, from what takes to what gives, over steps `from` to `to` (not included). */
export function lanesOf(result: DrawnDays, from: number, to: number): Lane[] {
  const { columns, inputs, plant } = result;
  const stepH = inputs.stepMin / 60;
  const load = summed([...inputs.loadKw], from, to);
  const lanes = [lane('Load', load, load, LOAD, stepH, '')];
  const offered = summed(arraysOf(inputs), from, to);
  if (offered.some((kw) => kw > 0)) {
    const used = summed([columns.dcUsedKw, columns.acUsedKw], from, to);
    lanes.push({ ...lane('Array', used, offered, ARRAY, stepH, ''), ...arrayWords(used, offered, stepH) });
  }
  if (plant.battery) lanes.push(batteryLane(columns.batteryKw.subarray(from, to), stepH));
  if (plant.generator) {
    const kw = columns.generatorKw.subarray(from, to);
    lanes.push(lane('Generator', kw, null, GENERATOR, stepH, ''));
  }
  const unserved = columns.unservedKw.subarray(from, to);
  if (unserved.some((kw) => kw > 0))
    lanes.push({ ...lane('Unserved', unserved, unserved, UNSERVED, stepH, ''), stroke: UNSERVED_LINE });
  return lanes;
}

/** A lane's words, as long as the drawing is wide. */
export function laneText(lane: Lane, width: number): string {
  return width < 500 ? lane.shortWords : lane.words;
}

function lane(
  name: string,
  kw: Float64Array,
  outlineKw: Float64Array | null,
  fill: string,
  stepH: number,
  more: string,
): Lane {
  const highest = highestOf(outlineKw ?? kw);
  const kwh = alone('kwh', sum(kw) * stepH);
  const shortWords = `${kwh}, at most ${digits(highest, 1)} kW`;
  return {
    name,
    kw,
    outlineKw,
    lowest: 0,
    highest,
    fill,
    stroke: SOFT,
    shortWords,
    words: shortWords + more,
  };
}

function arrayWords(
  used: Float64Array,
  offered: Float64Array,
  stepH: number,
): Pick<Lane, 'words' | 'shortWords'> {
  const usedKwh = sum(used) * stepH;
  const shortWords = `${alone('kwh', usedKwh)} of ${alone('kwh', sum(offered) * stepH)}`;
  return {
    shortWords: `${shortWords} on offer`,
    words: `${shortWords} on offer (the line) used, at most ${digits(highestOf(used), 1)} kW`,
  };
}

/** Giving is drawn upwards, as what supplies the load; charging hangs below. */
function batteryLane(chargingKw: Float64Array, stepH: number): Lane {
  const kw = chargingKw.map((value) => -value);
  const gave = sum(kw.map((value) => Math.max(0, value))) * stepH;
  const took = gave - sum(kw) * stepH;
  const highest = Math.max(0, highestOf(kw));
  const lowest = -Math.max(0, highestOf(chargingKw));
  const shortWords = `gave ${alone('kwh', gave)}, took ${alone('kwh', took)}`;
  return {
    name: 'Battery',
    kw,
    outlineKw: null,
    lowest,
    highest,
    fill: BATTERY,
    stroke: SOFT,
    shortWords,
    words: `gave ${alone('kwh', gave)} (above the line), took ${alone('kwh', took)} (below it)`,
  };
}

function arraysOf({ dcArrayKw, acArrayKw }: Inputs): Float64Array[] {
  return [dcArrayKw, acArrayKw].filter((array) => array !== undefined);
}

function summed(columns: readonly Float64Array[], from: number, to: number): Float64Array {
  const total = new Float64Array(to - from);
  for (const column of columns) for (let i = from; i < to; i++) total[i - from] += column[i];
  return total;
}

function sum(values: Float64Array): number {
  return values.reduce((total, value) => total + value, 0);
}

function highestOf(values: Float64Array): number {
  return values.reduce((highest, value) => Math.max(highest, value), 0);
}
