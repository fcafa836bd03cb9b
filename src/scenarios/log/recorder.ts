import seedrandom from 'seedrandom';
import { normal } from '../normal-draw.ts';
import { sumOfColumns } from '../sum-columns.ts';
import { RECORDED, type Recorded, type SiteRecord } from './site-record.ts';
import type { Truth } from './truth.ts';

/** How a recorder sees a site. */
export interface RecorderTraits {
  /** a multiple of the truth's step that divides 60 [min] */
  stepMin: number;
  seed: string;
  /** what it records; left out: all that there is */
  columns?: readonly Recorded[];
  /** whether it records the arrays one by one too */
  arraysAlone?: boolean;
  /** deviation of each reading of a power or of irradiance, as a share of it */
  noiseFrac: number;
  /** deviation of each reading of a temperature [K] and of a level of fuel [L] */
  noiseK: number;
  noiseL: number;
  /** what readings are rounded to: charge, kW, °C, L, W/m²; 0: not at all */
  quantum: { socFrac: number; kw: number; c: number; l: number; wPerM2: number };
  /** mean number of gaps a day, and the longest [h]; lengths are drawn evenly */
  gapsADay: number;
  longestGapH: number;
}

/** A recorder such as many sites have. All of it is an assumption. */
export const USUAL_RECORDER: Omit<RecorderTraits, 'seed'> = {
  stepMin: 5,
  arraysAlone: true,
  noiseFrac: 0.01,
  noiseK: 0.2,
  noiseL: 1,
  quantum: { socFrac: 0.01, kw: 0.01, c: 0.1, l: 1, wPerM2: 1 },
  gapsADay: 0.05,
  longestGapH: 12,
};

/** The log that a recorder makes of a site: means of its steps, levels at their ends, each reading off by chance. */
export function recordTruth(truth: Truth, traits: RecorderTraits): SiteRecord {
  // the quickest of its generators: a log takes millions of draws
  const draw = seedrandom.alea(traits.seed);
  const per = traits.stepMin / truth.axis.stepMin;
  const axis = { ...truth.axis, stepMin: traits.stepMin, count: Math.floor(truth.axis.count / per) };
  const missing = gapsOf(axis.count, traits, draw);
  const read = (values: Float64Array, kind: Kind): Float64Array => {
    const { isLevel, deviation, quantum } = KINDS[kind](traits);
    return Float64Array.from({ length: axis.count }, (_, i) => {
      if (missing[i] === 1) return Number.NaN;
      const exact = isLevel ? values[(i + 1) * per - 1] : mean(values, i * per, (i + 1) * per);
      const seen = exact + deviation(exact) * normal(draw);
      return quantum > 0 ? Math.round(seen / quantum) * quantum : seen;
    });
  };
  const columns: SiteRecord['columns'] = {};
  for (const name of traits.columns ?? RECORDED) {
    const values = seriesOf(truth, name);
    if (values) columns[name] = read(values, kindOf(name));
  }
  const arraysKw = traits.arraysAlone
    ? Object.fromEntries(Object.entries(truth.arraysKw).map(([name, kw]) => [name, read(kw, 'power')]))
    : {};
  return { axis, columns, arraysKw, sheet: sheetOf(axis.count, missing, axis) };
}

type Kind = 'power' | 'share' | 'charge' | 'level' | 'temperature' | 'air' | 'sun';

interface Reading {
  /** at the end of the step, in place of its mean */
  isLevel: boolean;
  deviation: (value: number) => number;
  quantum: number;
}

const KINDS: Record<Kind, (traits: RecorderTraits) => Reading> = {
  power: (t) => ({ isLevel: false, deviation: (v) => t.noiseFrac * Math.abs(v), quantum: t.quantum.kw }),
  share: () => ({ isLevel: false, deviation: () => 0, quantum: 0 }),
  charge: (t) => ({ isLevel: true, deviation: () => 0, quantum: t.quantum.socFrac }),
  level: (t) => ({ isLevel: true, deviation: () => t.noiseL, quantum: t.quantum.l }),
  temperature: (t) => ({ isLevel: true, deviation: () => t.noiseK, quantum: t.quantum.c }),
  air: (t) => ({ isLevel: false, deviation: () => t.noiseK, quantum: t.quantum.c }),
  sun: (t) => ({ isLevel: false, deviation: (v) => t.noiseFrac * v, quantum: t.quantum.wPerM2 }),
};

function kindOf(name: Recorded): Kind {
  if (name === 'socFrac') return 'charge';
  if (name === 'generatorOn') return 'share';
  if (name === 'fuelL') return 'level';
  if (name === 'outsideC') return 'air';
  if (name === 'cabinetC' || name === 'cellC') return 'temperature';
  return name === 'sunWPerM2' ? 'sun' : 'power';
}

function seriesOf(truth: Truth, name: Recorded): Float64Array | null {
  if (name === 'loadKw') return sumOfColumns(truth.loadKw);
  if (name === 'load1Kw' || name === 'load2Kw' || name === 'load3Kw')
    return truth.loadKw.length > 1 ? truth.loadKw[Number(name[4]) - 1] : null;
  if (name === 'arrayKw') {
    const all = Object.values(truth.arraysKw);
    return all.length > 0 ? sumOfColumns(all) : null;
  }
  return truth[name];
}

function mean(values: Float64Array, from: number, to: number): number {
  let total = 0;
  for (let i = from; i < to; i++) total += values[i];
  return total / (to - from);
}

/** 1 in the steps without a row. */
function gapsOf(count: number, { gapsADay, longestGapH, stepMin }: RecorderTraits, draw: () => number) {
  const missing = new Uint8Array(count);
  const chance = (gapsADay * stepMin) / 1440;
  for (let i = 0; i < count; i++) {
    if (draw() >= chance) continue;
    const steps = Math.ceil((draw() * longestGapH * 60) / stepMin);
    missing.fill(1, i, i + steps);
    i += steps;
  }
  return missing;
}

function sheetOf(
  rows: number,
  missing: Uint8Array,
  { startS, stepMin }: SiteRecord['axis'],
): SiteRecord['sheet'] {
  const gaps: { startS: number; steps: number }[] = [];
  for (let i = 0; i < rows; i++) {
    if (missing[i] === 0) continue;
    const end = missing.indexOf(0, i);
    const steps = (end < 0 ? rows : end) - i;
    gaps.push({ startS: startS + i * stepMin * 60, steps });
    i += steps;
  }
  return {
    ...{ file: 'made', timeZone: 'UTC', rows: rows - missing.reduce((all, one) => all + one, 0) },
    ...{ columns: [], gaps: gaps.sort((a, b) => b.steps - a.steps), duplicates: 0, resets: 0 },
    clock: { addedH: 0, driftHPerDay: 0, by: 'right' },
  };
}
