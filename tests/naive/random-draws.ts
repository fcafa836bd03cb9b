import fc from 'fast-check';

/**
 * An even draw from a range, in a hundred thousand steps: unlike a random double it has no unlikely bits, it is
 * not drawn to the ends of the range, and it shrinks to the lower end.
 */
export const between = (low: number, high: number): fc.Arbitrary<number> =>
  fc.noBias(fc.integer({ min: 0, max: 100_000 })).map((part) => low + ((high - low) * part) / 100_000);

/** A time on the grid of whole minutes [h], so that it often is no whole number of steps. */
export const minutes = (low: number, high: number): fc.Arbitrary<number> =>
  fc.noBias(fc.integer({ min: low, max: high })).map((min) => min / 60);

/** `value` in a share of the cases, else `otherwise`. */
export function sometimes<T, U>(share: number, value: fc.Arbitrary<T>, otherwise: U): fc.Arbitrary<T | U> {
  const inTwenty = Math.round(share * 20);
  return fc.oneof(
    { weight: inTwenty, arbitrary: value },
    { weight: 20 - inTwenty, arbitrary: fc.constant(otherwise) },
  );
}

/** What everything else is scaled by. */
export interface Scale {
  phases: 1 | 3;
  /** mean load of a phase [kW] */
  phaseKw: number;
}
