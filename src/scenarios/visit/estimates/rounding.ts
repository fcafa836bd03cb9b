import seedrandom from 'seedrandom';

/** Readings are taken as rounded when they have at most so many values: else their rounding averages out. */
const FEW_LEVELS = 400;

/**
 * What readings were rounded to: the least distance between any two different ones.
 * @returns 0 where they look not rounded: with a least distance below a 10,000th of their range
 */
export function quantumOf(values: Float64Array): number {
  const sorted = values.filter((value) => !Number.isNaN(value)).sort();
  let least = Number.POSITIVE_INFINITY;
  const range = sorted.length > 0 ? sorted[sorted.length - 1] - sorted[0] : 0;
  for (let i = 1; i < sorted.length; i++) {
    const apart = sorted[i] - sorted[i - 1];
    // the same number of quanta times the quantum, with the error of the multiplication
    if (apart > 1e-9 * Math.max(1, range) && apart < least) least = apart;
  }
  return least < 1e-4 * range || least === Number.POSITIVE_INFINITY ? 0 : least;
}

/**
 * Readings as they may have been before they were rounded, several times over. A load that stays the same is rounded
 * the same way each time, so that equal readings err by the same amount, drawn evenly within the quantum.
 * @returns nothing where rounding averages out
 */
export function unrounded(
  values: Float64Array,
  quantum: number,
  times: number,
  seed: string,
): Float64Array[] {
  const levels = new Set<number>();
  if (quantum === 0) return [];
  for (const value of values) if (!Number.isNaN(value)) levels.add(Math.round(value / quantum));
  if (levels.size > FEW_LEVELS) return [];
  const draw = seedrandom(seed);
  return Array.from({ length: times }, () => {
    const errors = new Map([...levels].map((level) => [level, (draw() - 0.5) * quantum]));
    return values.map((value) => value + (errors.get(Math.round(value / quantum)) ?? 0));
  });
}

/** What readings are rounded to, and how much of it means of them may still be off by: the less, the more they tremble. */
export interface Quantum {
  quantum: number;
  left: number;
}

/**
 * Variance that rounding leaves in a mean of many readings that tremble by chance: the more they do, the less. First
 * term of the Fourier series of the rounding error. Source: Widrow, Kollar and Liu, IEEE Trans. Instrumentation and
 * Measurement 45(2), 1996 (from memory).
 */
export function roundingLeft(spread: number, quantum: number): number {
  if (quantum === 0) return 0;
  const trembling = Math.max(0, spread - quantum ** 2 / 12) / quantum ** 2;
  return (quantum ** 2 / (2 * Math.PI ** 2)) * Math.exp(-4 * Math.PI ** 2 * trembling);
}

/**
 * By how much a reading may have been rounded: a load that stays the same is rounded the same way each time, so that
 * equal readings err by the same amount, drawn evenly within the quantum.
 */
export function roundingErrors(seed: string): (reading: number, rounded: Quantum) => number {
  const draw = seedrandom(seed);
  const errors = new Map<number, number>();
  return (reading, { quantum, left }) => {
    if (quantum === 0) return 0;
    const level = Math.round(reading / quantum);
    const known = errors.get(level);
    if (known !== undefined) return known;
    const error = (draw() - 0.5) * left;
    errors.set(level, error);
    return error;
  };
}

/** Mean square of the distances of values from one. */
export function meanSquareFrom(value: number, others: readonly number[]): number {
  return others.reduce((sum, other) => sum + (other - value) ** 2, 0) / Math.max(1, others.length);
}
