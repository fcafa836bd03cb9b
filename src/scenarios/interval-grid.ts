import { makeSheet } from './data-sheet.ts';
import { fillGaps } from './gaps.ts';
import type { Issue } from './issue.ts';
import type { Gap, Quantity, ReadResult, Series, TimeAxis } from './series.ts';

/** Metered intervals in a row, each as long as the other: energy of each. */
export interface MeteredBlock {
  startS: number;
  /** length of each interval [s] */
  durationS: number;
  kwh: ArrayLike<number>;
}

/** The intervals of one register (channel) of a meter. */
export interface Register {
  name: string;
  quantity: Extract<Quantity, 'loadKw' | 'generationKw'>;
  blocks: MeteredBlock[];
}

/** What a meter reader knows besides its registers. */
export interface MeterFacts {
  file: string;
  reader: string;
  chosenBecause: string;
  timeZone: string;
  estimated: number;
  maxGapMin: number;
  issues: Issue[];
}

/** Longest axis that is made: thirty years of minutes. */
const MOST_STEPS = 30 * 525_600;

/**
 * Registers on one common axis, those of a quantity added up. The step is the shortest interval met; longer ones
 * are spread evenly over theirs. An interval that is there twice counts once: the later in the file is kept.
 */
export function registersToSeries(registers: readonly Register[], facts: MeterFacts): ReadResult {
  const { file, issues } = facts;
  const axis = commonAxis(registers);
  if (axis === null || axis.count > MOST_STEPS) {
    const got = axis === null ? 'no intervals' : `a span of ${axis.count} steps`;
    const want = 'intervals of whole minutes that divide an hour, over at most thirty years';
    issues.push({ severity: 'error', code: 'no-step', path: 'intervals', got, want, at: { file } });
  }
  if (axis === null || issues.some((issue) => issue.severity === 'error'))
    return { series: [], sheet: null, issues };
  const gaps: Gap[] = [];
  let duplicates = 0;
  const series: Series[] = [];
  for (const quantity of ['loadKw', 'generationKw'] as const) {
    const own = registers.filter((register) => register.quantity === quantity);
    if (own.length === 0) continue;
    const total = new Float64Array(axis.count);
    for (const register of own) {
      const placed = placeIntervals(register, axis);
      duplicates += placed.duplicates;
      const filled = fillGaps(placed.kw, axis, facts.maxGapMin, register.name, file);
      gaps.push(...filled.gaps);
      issues.push(...filled.issues);
      for (let i = 0; i < total.length; i++) total[i] += placed.kw[i];
    }
    series.push({ name: own.map(({ name }) => name).join(' + '), quantity, axis, values: total });
  }
  if (duplicates > 0) issues.push(duplicatesDoubt(duplicates, file));
  const failed = issues.some((issue) => issue.severity === 'error');
  const { reader, chosenBecause, timeZone, estimated } = facts;
  const sheet = makeSheet({
    file,
    reader,
    chosenBecause,
    timeZone,
    axis,
    series,
    gaps,
    duplicates,
    estimated,
  });
  return { series: failed ? [] : series, sheet, issues };
}

function commonAxis(registers: readonly Register[]): TimeAxis | null {
  let startS = Number.POSITIVE_INFINITY;
  let endS = Number.NEGATIVE_INFINITY;
  let stepS = Number.POSITIVE_INFINITY;
  for (const { blocks } of registers)
    for (const block of blocks) {
      startS = Math.min(startS, block.startS);
      endS = Math.max(endS, block.startS + block.durationS * block.kwh.length);
      stepS = Math.min(stepS, block.durationS);
    }
  if (!(endS > startS) || stepS % 60 !== 0 || 3600 % stepS !== 0) return null;
  return { startS, stepMin: stepS / 60, count: Math.ceil((endS - startS) / stepS) };
}

function placeIntervals(register: Register, axis: TimeAxis): { kw: Float64Array; duplicates: number } {
  const kw = new Float64Array(axis.count).fill(Number.NaN);
  const stepS = axis.stepMin * 60;
  let duplicates = 0;
  for (const { startS, durationS, kwh } of register.blocks) {
    const steps = Math.round(durationS / stepS);
    for (let interval = 0; interval < kwh.length; interval++) {
      const first = Math.round((startS + interval * durationS - axis.startS) / stepS);
      if (!Number.isNaN(kw[first])) duplicates++;
      const power = (kwh[interval] * 3600) / durationS;
      for (let i = first; i < Math.min(first + steps, kw.length); i++) kw[i] = power;
    }
  }
  return { kw, duplicates };
}

function duplicatesDoubt(duplicates: number, file: string): Issue {
  const got = `${duplicates} intervals that are there twice`;
  return {
    severity: 'doubt',
    code: 'duplicates',
    path: 'intervals',
    got,
    want: 'each once; the later was kept',
    at: { file },
  };
}
