/** What the yardsticks in other languages read and write: one run as a file of numbers, and the slots by name. */
import { readFileSync, writeFileSync } from 'node:fs';
import { compileParameters, initialState } from '../../src/sim/compile.ts';
import type { Controls } from '../../src/sim/controls.ts';
import type { Inputs } from '../../src/sim/inputs.ts';
import { extremesFrom, type Ledger, outagesFrom, runsFrom, totalsFrom } from '../../src/sim/ledger.ts';
import { OUTAGE_FIELDS, RUN_FIELDS } from '../../src/sim/log.ts';
import type { Plant } from '../../src/sim/plant.ts';
import * as slot from '../../src/sim/slots.ts';

export interface Run {
  name: string;
  plant: Plant;
  controls: Controls;
  inputs: Inputs;
}

/** Parameters that must be nought, for the yardsticks leave out what they switch on. */
const LEFT_OUT: Record<string, number> = {
  'lead-acid': slot.P_KINETIC,
  'a meter that drifts': slot.P_DRIFT,
  overloads: slot.P_OVERLOAD,
  'a second set': slot.P_SECOND,
  'an engine to be bled': slot.P_BLEED,
  'standing load of the set': slot.P_STANDING,
  'a block heater': slot.P_BLOCK_HEATER,
  'cause continuous': slot.P_CONTINUOUS,
  'cause hand': slot.P_HAND_RULE,
  'cause full': slot.P_FULL_RULE,
  'cause exercise': slot.P_EXERCISE_RULE,
  shedding: slot.P_SHED_RULE,
  'lock-out by trips': slot.P_LOCK_TRIPS,
  'shiftable loads': slot.P_SHIFTABLE,
};

/** Series that must be absent, likewise. */
const NO_SERIES = [
  ...(['sheddableKw', 'attended', 'outOfOrder', 'bypass', 'unitsOut', 'runWindow'] as const),
  ...(['exerciseDue', 'thresholdSet', 'startFails'] as const),
];

/** Throws when the run has something that the yardsticks leave out: they would be faster for the wrong reason. */
function checkSubset({ plant, inputs }: Run, p: Float64Array): void {
  const has = Object.keys(LEFT_OUT).filter((name) => p[LEFT_OUT[name]] !== 0);
  has.push(...NO_SERIES.filter((name) => inputs[name] !== undefined));
  if (inputs.acArrayKw?.some((kw) => kw > 0)) has.push('an AC-coupled array');
  if (inputs.refillSteps && inputs.refillSteps.length > 0) has.push('refillSteps');
  if (plant.batteryCabinets && plant.batteryCabinets.length > 0) has.push('batteryCabinets');
  if (plant.phases !== 3 || !plant.battery || !plant.generator) has.push('fewer phases or parts');
  if (has.length > 0) throw new Error(`the other languages do not have ${has.join(', ')}`);
}

/** Count, parameters, state, six series of doubles; then the flags `restricted` and `night`, a byte a step. */
export function writeRun(file: string, run: Run): void {
  const { plant, controls, inputs } = run;
  const { count, loadKw, dcArrayKw, airC, cabinetSunWPerM2, restricted, night } = inputs;
  const p = compileParameters(plant, controls, inputs.stepMin / 60);
  checkSubset(run, p);
  const none = new Float64Array(count);
  const series = [...loadKw, dcArrayKw ?? none, airC ?? none, cabinetSunWPerM2 ?? none];
  const numbers = [Float64Array.of(count), p, initialState(plant), ...series];
  const flags = [restricted, night].map((values) => values ?? new Uint8Array(count));
  const bytes = [...numbers, ...flags].map((a) => new Uint8Array(a.buffer, a.byteOffset, a.byteLength));
  writeFileSync(file, Buffer.concat(bytes));
}

const SLOTS: [string, number][] = Object.entries(slot);

/** The same slots for C and for Python. */
export function writeSlots(header: string, module: string): void {
  writeFileSync(header, SLOTS.map(([name, at]) => `#define ${name} ${at}\n`).join(''));
  writeFileSync(module, SLOTS.map(([name, at]) => `${name} = ${at}\n`).join(''));
}

type Outcome = Pick<Ledger, 'totals' | 'extremes' | 'runs' | 'outages' | 'storedEndKwh' | 'tankEndL'>;

/** What another language has left: sums, extremes, four ends, rows of the log. */
export function readOutcome(file: string, { plant, controls, inputs }: Run): Outcome {
  const bytes = readFileSync(file);
  const all = new Float64Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength));
  const p = compileParameters(plant, controls, inputs.stepMin / 60);
  const x = all.subarray(slot.T_SIZE);
  const ends = x.subarray(slot.X_SIZE);
  const [storedEndKwh, tankEndL, runs, outages] = ends;
  const log = ends.subarray(4);
  if (log.length !== runs * RUN_FIELDS + outages * OUTAGE_FIELDS) throw new Error(`${file} is not whole`);
  return {
    totals: totalsFrom(all, p),
    extremes: extremesFrom(x, p),
    runs: runsFrom(log, runs),
    outages: outagesFrom(log.subarray(runs * RUN_FIELDS), outages),
    storedEndKwh,
    tankEndL,
  };
}

/** How many numbers were compared, and where they differ: path and both values. */
export interface Comparison {
  numbers: number;
  differences: string[];
}

export function compare(ours: unknown, theirs: unknown, path = '', so: Comparison = start()): Comparison {
  if (typeof theirs === 'object' && theirs !== null) {
    const mine = ours as Record<string, unknown>;
    for (const [key, value] of Object.entries(theirs)) compare(mine[key], value, `${path}.${key}`, so);
    if (Array.isArray(theirs) && theirs.length !== (ours as unknown[]).length)
      so.differences.push(`${path}: ${(ours as unknown[]).length} here, ${theirs.length} there`);
    return so;
  }
  so.numbers++;
  if (ours !== theirs) so.differences.push(`${path}: ${ours} here, ${theirs} there`);
  return so;
}

function start(): Comparison {
  return { numbers: 0, differences: [] };
}
