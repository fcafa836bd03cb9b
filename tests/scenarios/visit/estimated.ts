/** Estimates made by hand, for tests of what is done with them. */
import type { SiteRecord } from '../../../src/scenarios/log/site-record.ts';
import type { Known } from '../../../src/scenarios/visit/calibrate.ts';
import type { Estimated } from '../../../src/scenarios/visit/visit.ts';

/** An estimate of a whole log. @param half half width of its interval, as a share of the value */
export function estimated(
  { axis }: SiteRecord,
  key: Estimated,
  value: number,
  designed: number | null,
  half = 0.02,
): Known {
  const [low, high] = [value * (1 - half), value * (1 + half)];
  const basis = { count: 100, of: 'steps' as const };
  const toS = axis.startS + axis.count * axis.stepMin * 60;
  return { key, value, low, high, designed, basis, fromS: axis.startS, toS };
}
