import type { TimeAxis } from '../series.ts';
import { isPower } from './read-units.ts';
import type { RecordedColumn, RecordSheet } from './site-record.ts';

/** What is told of a column besides its values. */
export type ColumnFacts = Pick<RecordedColumn, 'header' | 'is' | 'unit' | 'quantum' | 'turned'>;

/** A column with its sum or mean, lowest, highest and missing steps. */
export function columnSheet(values: Float64Array, facts: ColumnFacts, { stepMin }: TimeAxis): RecordedColumn {
  let [sum, known] = [0, 0];
  let [lowest, highest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of values) {
    if (Number.isNaN(value)) continue;
    sum += value;
    known++;
    if (value < lowest) lowest = value;
    if (value > highest) highest = value;
  }
  const total = isPower(facts.is) ? (sum * stepMin) / 60 : sum / known;
  const [low, high] = known > 0 ? [lowest, highest] : [Number.NaN, Number.NaN];
  const { header, is, unit, quantum, turned } = facts;
  return {
    header,
    is,
    unit,
    total,
    lowest: low,
    highest: high,
    missing: values.length - known,
    quantum,
    turned,
  };
}

/** Stretches of steps without a row, longest first. */
export function gapsOf(
  isBare: (step: number) => boolean,
  { startS, stepMin, count }: TimeAxis,
): RecordSheet['gaps'] {
  const gaps: RecordSheet['gaps'] = [];
  for (let from = 0; from < count; from++) {
    if (!isBare(from)) continue;
    let to = from + 1;
    while (to < count && isBare(to)) to++;
    gaps.push({ startS: startS + from * stepMin * 60, steps: to - from });
    from = to;
  }
  return gaps.sort((a, b) => b.steps - a.steps);
}

/** Values that are looked at for what they were rounded to. */
const MOST_LOOKED_AT = 20_000;
/** Differences within this share of the quantum of a multiple of it are multiples. */
const NEAR = 0.02;

/** What values were rounded to: the least distance between them, of which all others are multiples; 0: not to be seen. */
export function quantumOf(cells: Float64Array): number {
  const every = Math.max(1, Math.floor(cells.length / MOST_LOOKED_AT));
  const looked = cells.filter((value, i) => i % every === 0 && !Number.isNaN(value)).sort();
  const scale = Math.max(Math.abs(looked[0] ?? 0), Math.abs(looked[looked.length - 1] ?? 0));
  let least = Number.POSITIVE_INFINITY;
  for (let i = 1; i < looked.length; i++) {
    const apart = looked[i] - looked[i - 1];
    if (apart > 1e-9 * scale && apart < least) least = apart;
  }
  if (least === Number.POSITIVE_INFINITY) return 0;
  for (let i = 1; i < looked.length; i++) {
    const times = (looked[i] - looked[i - 1]) / least;
    if (Math.abs(times - Math.round(times)) > NEAR * Math.max(1, Math.round(times) / 100)) return 0;
  }
  return Number(least.toPrecision(6));
}
