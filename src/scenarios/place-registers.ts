import { MEASURED, type MeteredBlock, type Register } from './metered.ts';
import type { TimeAxis } from './series.ts';

/** Longest interval that says enough about a load [s]. */
export const LONGEST_S = 3600;

/**
 * The axis that all intervals of all registers fall on: its step is the largest that divides every interval, the
 * distance between any two of them, and an hour.
 * @returns null without intervals, or when they are not whole minutes or longer than an hour
 */
export function commonAxis(registers: readonly Register[]): TimeAxis | null {
  let startS = Number.POSITIVE_INFINITY;
  let endS = Number.NEGATIVE_INFINITY;
  let stepS = LONGEST_S;
  for (const { blocks } of registers)
    for (const block of blocks) {
      if (!(block.durationS > 0) || block.durationS > LONGEST_S) return null;
      if (startS < Number.POSITIVE_INFINITY) stepS = divisor(stepS, Math.abs(block.startS - startS));
      stepS = divisor(stepS, block.durationS);
      startS = Math.min(startS, block.startS);
      endS = Math.max(endS, block.startS + block.durationS * block.kwh.length);
    }
  if (!(endS > startS) || startS % 60 !== 0 || stepS % 60 !== 0) return null;
  return { startS, stepMin: stepS / 60, count: (endS - startS) / stepS };
}

/** Greatest common divisor of whole numbers (Euclid). */
export function divisor(a: number, b: number): number {
  return b === 0 ? a : divisor(b, a % b);
}

/** One register on the axis. */
export interface PlacedRegister {
  name: string;
  /** mean power of each step [kW]; NaN where there is none */
  kw: Float64Array;
  /** how each step is known */
  marks: Uint8Array;
  /** intervals that were there more than once */
  duplicates: number;
  /** of these, intervals with another value */
  differing: number;
  /** energy by which they differ in sum, absolute [kWh] */
  differingKwh: number;
  /** the block with the first duplicate; of those with another value if there are any */
  duplicateAt: MeteredBlock | null;
}

/**
 * Puts the intervals of a register on the axis; longer ones are spread evenly over its steps. Of an interval that
 * is there twice the newer version is kept; where the versions are equal or not told, what was measured, else the
 * later in the file.
 */
export function placeRegister(register: Register, axis: TimeAxis): PlacedRegister {
  const placed: PlacedRegister = {
    name: register.name,
    kw: new Float64Array(axis.count).fill(Number.NaN),
    marks: new Uint8Array(axis.count),
    duplicates: 0,
    differing: 0,
    differingKwh: 0,
    duplicateAt: null,
  };
  const oldestFirst = [...register.blocks].sort((a, b) => a.version - b.version);
  const areEqual = oldestFirst[0]?.version === oldestFirst.at(-1)?.version;
  const versions = areEqual ? null : new Float64Array(axis.count);
  for (const block of oldestFirst) placeBlock(block, axis, placed, versions);
  return placed;
}

function placeBlock(
  block: MeteredBlock,
  axis: TimeAxis,
  placed: PlacedRegister,
  versions: Float64Array | null,
): void {
  const { kw, marks } = placed;
  const { startS, durationS, kwh, version } = block;
  const stepS = axis.stepMin * 60;
  const steps = durationS / stepS;
  const toKw = 3600 / durationS;
  let from = (startS - axis.startS) / stepS;
  for (let interval = 0; interval < kwh.length; interval++, from += steps) {
    const power = kwh[interval] * toKw;
    // a missing value never takes the place of one that is there
    if (Number.isNaN(power)) continue;
    const mark = block.marks === null ? MEASURED : block.marks[interval];
    let isThere = false;
    let keepsMeasured = false;
    let apartKw = 0;
    for (let i = from; i < from + steps; i++) {
      if (Number.isNaN(kw[i])) continue;
      isThere = true;
      const isNewer = versions !== null && versions[i] > 0 && versions[i] < version;
      if (marks[i] === MEASURED && !isNewer) keepsMeasured = true;
      apartKw += Math.abs(kw[i] - power);
    }
    if (isThere) countDuplicate(placed, block, (apartKw * stepS) / 3600);
    if (keepsMeasured && mark !== MEASURED) continue;
    kw.fill(power, from, from + steps);
    marks.fill(mark, from, from + steps);
    versions?.fill(version, from, from + steps);
  }
}

function countDuplicate(placed: PlacedRegister, block: MeteredBlock, apartKwh: number): void {
  placed.duplicates++;
  const differs = apartKwh > 1e-9;
  if (placed.duplicateAt === null || (differs && placed.differing === 0)) placed.duplicateAt = block;
  if (!differs) return;
  placed.differing++;
  placed.differingKwh += apartKwh;
}
