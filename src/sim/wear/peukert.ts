import { powerOf } from './power.ts';

/**
 * How long a lead-acid battery lasts at a constant current: t = H · (C / (I·H))^k.
 * The law gives no recovery at rest and no effect of temperature, and below the rated current more than it holds.
 * @param ratedAh    capacity C at the rated discharge time [Ah], > 0
 * @param ratedHours rated discharge time H [h], > 0
 * @param exponent   k, 1 and above; about 1.1 to 1.3 for lead-acid (common practice)
 * @param currentA   [A], > 0
 * @returns hours from full to empty, > 0
 * Source: Peukert, Elektrotechnische Zeitschrift 18, 1897 (from memory), in the form with a rated time.
 */
export function peukertHours(
  ratedAh: number,
  ratedHours: number,
  exponent: number,
  currentA: number,
): number {
  return ratedHours * powerOf(ratedAh / (currentA * ratedHours), exponent);
}

/** The capacity [Ah] that the same battery gives at that current. */
export function peukertAh(ratedAh: number, ratedHours: number, exponent: number, currentA: number): number {
  return currentA * peukertHours(ratedAh, ratedHours, exponent, currentA);
}
