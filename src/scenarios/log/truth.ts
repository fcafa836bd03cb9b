import { carryOn, type SiteState } from '../../sim/carry-on.ts';
import { makeColumns, type StepColumns } from '../../sim/columns.ts';
import type { Controls } from '../../sim/controls.ts';
import type { Inputs } from '../../sim/inputs.ts';
import type { Plant } from '../../sim/plant.ts';
import type { SiteChanges } from '../apply-changes.ts';
import { arraysAlone } from '../arrays-alone.ts';
import type { Cache } from '../cache.ts';
import { controlsFromSite } from '../controls-from-site.ts';
import { spanOf } from '../horizon-spans.ts';
import { InputMaker } from '../inputs-from-site.ts';
import type { Issue } from '../issue.ts';
import type { ReadFile } from '../load-files.ts';
import { Filed } from '../many/ground.ts';
import { plantFromSite } from '../plant-from-site.ts';
import type { TimeAxis } from '../series.ts';
import type { Site } from '../site-schema.ts';
import { fuelLevels, shownSoc } from './truth-levels.ts';

/** What happened at a site that is not quite the one in its file, step by step, before any recorder saw it. */
export interface Truth {
  axis: TimeAxis;
  /** served, by phase [kW] */
  loadKw: Float64Array[];
  /** by the arrays' names, what each gave [kW] */
  arraysKw: Record<string, Float64Array>;
  batteryKw: Float64Array;
  generatorKw: Float64Array;
  /** 1 in the steps in which the engine ran */
  generatorOn: Float64Array;
  /** as shown to those who read it, 0 to 1; null without a battery */
  socFrac: Float64Array | null;
  /** null without a tank */
  fuelL: Float64Array | null;
  cabinetC: Float64Array;
  cellC: Float64Array;
  /** null without weather */
  outsideC: Float64Array | null;
  sunWPerM2: Float64Array | null;
}

export interface TruthRequest {
  /** text and name of the site file */
  text: string;
  file: string;
  readFile: ReadFile;
  /** step of the simulation [min]; the recorder's is a multiple of it */
  stepMin: number;
  /** one after the other; the first begins with the period. Days are from the start of the period */
  stretches: readonly TruthStretch[];
  /** keeps what several truths of a site share; left out: nothing is kept */
  cache?: Cache;
  /** in place of the engine: the plain simulator of the tests, which cannot go on from where a stretch ended */
  engine?: RunStretch;
}

type RunStretch = (
  plant: Plant,
  controls: Controls,
  inputs: Inputs,
  before: SiteState | null,
) => { columns: StepColumns; after: SiteState | null };

export interface TruthStretch {
  fromDay: number;
  /** how the site differs from its file, as an alternative has it */
  changes: SiteChanges;
  /** what no value of a site file says, such as a phase that is lost */
  edit?: (inputs: Inputs, axis: TimeAxis) => Inputs;
}

/**
 * Simulates a site as it really is. Load that is not served or shed is taken from all phases alike: a run does not
 * tell them apart.
 * Errors: every problem of the site file and of the changes, in place of the truth.
 */
export function simulateTruth(request: TruthRequest): Truth | Issue[] {
  const filed = new Filed(request.text, request.file);
  const maker = new InputMaker(request.readFile, request.stepMin, filed.placeOf, request.cache);
  let state: SiteState | null = null;
  const parts: Part[] = [];
  for (const [i, stretch] of request.stretches.entries()) {
    const site = filed.variant(stretch.changes);
    if (Array.isArray(site)) return site;
    const made = maker.make(site);
    if (made === null) return maker.issues;
    const whole = stretch.edit ? stretch.edit(made.inputs, made.axis) : made.inputs;
    const stepsPerDay = 1440 / request.stepMin;
    const from = stretch.fromDay * stepsPerDay;
    const to = (request.stretches[i + 1]?.fromDay ?? site.period.days) * stepsPerDay;
    const inputs = spanOf(whole, from, to);
    const plant = plantFromSite(site, made.airAtStartC, made.acArrayShare);
    const controls = controlsFromSite(site);
    const run = request.engine ?? carriedOn;
    const { columns, after } = run(plant, controls, inputs, state);
    state = after;
    const alone = arraysAlone(site, maker).map(([name, kw]) => [name, kw.slice(from, to)]);
    const offeredKw = Object.fromEntries(alone);
    parts.push({ axis: made.axis, site, plant, inputs, columns, offeredKw });
  }
  return joined(parts);
}

/** A stretch of the truth as it was run. */
interface Part {
  /** of the whole period */
  axis: TimeAxis;
  site: Site;
  plant: Plant;
  inputs: Inputs;
  columns: StepColumns;
  /** each array alone [kW] */
  offeredKw: Record<string, Float64Array>;
}

function carriedOn(plant: Plant, controls: Controls, inputs: Inputs, before: SiteState | null) {
  const columns = makeColumns(inputs.count);
  const { state: after } = carryOn(plant, controls, inputs, before, null, columns);
  return { columns, after };
}

function joined(parts: readonly Part[]): Truth {
  const [{ axis, site, plant }] = parts;
  const join = (of: (part: Part) => ArrayLike<number>): Float64Array => {
    const whole = new Float64Array(axis.count);
    let at = 0;
    for (const part of parts) {
      whole.set(of(part), at);
      at += part.inputs.count;
    }
    return whole;
  };
  const generatorOn = join(({ columns }) => Float64Array.from(columns.cause, (cause) => Number(cause > 0)));
  const generatorKw = join(({ columns }) => columns.generatorKw);
  return {
    axis,
    loadKw: Array.from({ length: plant.phases }, (_, k) => join((part) => servedKw(part, k))),
    arraysKw: Object.fromEntries(site.arrays.map(({ name }) => [name, join((part) => givenKw(part, name))])),
    batteryKw: join(({ columns }) => columns.batteryKw),
    generatorKw,
    generatorOn,
    socFrac: plant.battery && shownSoc(parts),
    fuelL: site.tank && fuelLevels(parts),
    cabinetC: join(({ columns }) => columns.cabinetC),
    cellC: join(({ columns }) => columns.cellC),
    outsideC: parts[0].inputs.airC ? join(({ inputs }) => inputs.airC as Float64Array) : null,
    sunWPerM2: parts[0].inputs.cabinetSunWPerM2
      ? join(({ inputs }) => inputs.cabinetSunWPerM2 as Float64Array)
      : null,
  };
}

function servedKw({ inputs, columns }: Part, phase: number): Float64Array {
  return inputs.loadKw[phase].map((kw, i) => {
    const all = inputs.loadKw.reduce((sum, each) => sum + each[i], 0);
    return all > 0 ? kw * (1 - columns.unservedKw[i] / all) : 0;
  });
}

/** What an array gave: its share of what all of its kind gave. */
function givenKw({ site, inputs, columns, offeredKw }: Part, name: string): Float64Array {
  const isDc = site.arrays.find((array) => array.name === name)?.coupling === 'dc';
  const used = isDc ? columns.dcUsedKw : columns.acUsedKw;
  const offered = (isDc ? inputs.dcArrayKw : inputs.acArrayKw) as Float64Array;
  return offeredKw[name].map((kw, i) => (offered[i] > 0 ? (kw * used[i]) / offered[i] : 0));
}
