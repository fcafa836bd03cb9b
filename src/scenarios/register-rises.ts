import { BlockRuns } from './block-runs.ts';
import { ESTIMATED, MEASURED, type MeteredBlock, SPREAD } from './metered.ts';
import { upperMedianOf } from './middle-values.ts';
import { divisor } from './place-registers.ts';

/** Readings of a running register in order of time. */
export interface Instants {
  /** when it was read [s] */
  atS: ArrayLike<number>;
  /** what it stood at, in its own unit: whole numbers are differenced without rounding */
  value: ArrayLike<number>;
  estimated: ArrayLike<boolean | number>;
}

/** The energy between readings. */
export interface Rises {
  blocks: MeteredBlock[];
  /** readings below the one before: their places in the order */
  falls: number[];
  /** rises over more than one interval: the place of the reading that ends each */
  holes: number[];
}

/**
 * The energy between readings of a running register, for which the time from reading to reading is an interval.
 * Over a hole only the sum is known: it is spread evenly. A reading below the one before is doubted with that one:
 * where those on either side of the two rise, the two are passed over as a hole; otherwise the register began anew,
 * and what it rose between the two is missing.
 * @param nominalS usual time between readings [s]; null when not known: the median
 * @param longestHoleS a longer hole stays missing [s]
 * @param isNet falls are energy the other way, negative
 * @param toKwh makes kWh of the register's unit
 */
export function registerRises(
  instants: Instants,
  nominalS: number | null,
  longestHoleS: number,
  isNet: boolean,
  toKwh: (rise: number) => number,
): Rises {
  const { atS, value, estimated } = instants;
  const { kept, falls } = isNet ? everyReading(value) : passOverFalls(value);
  const usualS = nominalS ?? medianStep(atS);
  const runs = new BlockRuns(0);
  const holes: number[] = [];
  for (let k = 1; k < kept.length; k++) {
    const [from, to] = [kept[k - 1], kept[k]];
    const rise = toKwh(value[to] - value[from]);
    const spanS = atS[to] - atS[from];
    if (!isNet && rise < 0) continue;
    if (spanS <= usualS) {
      runs.add(atS[from], spanS, rise, estimated[from] || estimated[to] ? ESTIMATED : MEASURED);
      continue;
    }
    holes.push(to);
    // as many readings are missing as intervals less one
    if (spanS - usualS > longestHoleS) continue;
    const partS = spanS % usualS === 0 ? usualS : divisor(spanS, usualS);
    const parts = spanS / partS;
    for (let i = 0; i < parts; i++) runs.add(atS[from] + i * partS, partS, rise / parts, SPREAD);
  }
  return { blocks: runs.blocks(), falls, holes };
}

function everyReading(value: ArrayLike<number>): { kept: number[]; falls: number[] } {
  return { kept: Array.from(value, (_, i) => i), falls: [] };
}

function passOverFalls(value: ArrayLike<number>): { kept: number[]; falls: number[] } {
  const kept: number[] = [];
  const falls: number[] = [];
  for (let i = 0; i < value.length; i++) {
    const before = kept.at(-1);
    if (before !== undefined && value[i] < value[before]) {
      falls.push(i);
      const first = kept.at(-2);
      if (first !== undefined && i + 1 < value.length && value[i + 1] >= value[first]) {
        kept.pop();
        continue;
      }
    }
    kept.push(i);
  }
  return { kept, falls };
}

function medianStep(atS: ArrayLike<number>): number {
  const steps = Array.from({ length: Math.max(0, atS.length - 1) }, (_, i) => atS[i + 1] - atS[i]);
  return steps.length > 0 ? upperMedianOf(steps) : 0;
}

/** Fewest rises that tell a running register from energies. */
const MANY_RISES = 20;

/** True when values in order of time look like a running register: they rise many times and never fall. */
export function looksRunning(values: readonly number[]): boolean {
  let rises = 0;
  for (let i = 1; i < values.length; i++) {
    if (values[i] < values[i - 1]) return false;
    if (values[i] > values[i - 1]) rises++;
  }
  return rises >= MANY_RISES;
}
