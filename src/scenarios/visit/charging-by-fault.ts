import type { Estimate, Fault } from './visit.ts';

/** The size of a fault is known to about this share (own choice). */
const SIZE_ERROR = 0.1;

/**
 * Estimates with the charging power that a fault tells, where they have none: a generator that was seen not to reach
 * its charging power gives what it was seen to give from then on, to the end of the log.
 * @param endS end of the log [s since 1970]
 */
export function withChargingByFault(
  estimates: readonly Estimate[],
  faults: readonly Fault[],
  endS: number,
): Estimate[] {
  const weak = faults.find(({ kind }) => kind === 'weak-charging');
  if (!weak || estimates.some(({ key, value }) => key === 'chargeKw' && value !== null))
    return [...estimates];
  const { expectedKw, seenKw, runs } = weak.evidence;
  const told: Estimate = {
    ...{ key: 'chargeKw', value: seenKw, designed: expectedKw },
    ...{ low: seenKw * (1 - SIZE_ERROR), high: Math.min(expectedKw, seenKw * (1 + SIZE_ERROR)) },
    basis: { count: runs, of: 'runs' },
    ...{ fromS: weak.fromS, toS: endS },
  };
  return [...estimates.filter(({ key }) => key !== 'chargeKw'), told];
}
