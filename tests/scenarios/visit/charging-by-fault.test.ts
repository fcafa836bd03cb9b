import { expect, it } from 'vitest';
import { withChargingByFault } from '../../../src/scenarios/visit/charging-by-fault.ts';
import type { Estimate, Fault } from '../../../src/scenarios/visit/visit.ts';

const WEAK: Fault = {
  ...{ kind: 'weak-charging', part: null, fromS: 1000, toS: 2000, size: 0.4, unit: '0 to 1' },
  evidence: { expectedKw: 20, seenKw: 12, weakRuns: 5, runs: 6, steps: 40 },
};
const REFUSED: Estimate = { key: 'chargeKw', value: null, why: 'too-little', lacks: '0 runs' };

it('the charging power that a fault tells holds from then to the end, where there is no estimate', () => {
  expect(withChargingByFault([REFUSED], [WEAK], 9000)).toEqual([
    expect.objectContaining({ key: 'chargeKw', value: 12, designed: 20, fromS: 1000, toS: 9000 }),
  ]);
  expect(withChargingByFault([REFUSED], [], 9000)).toEqual([REFUSED]);
  const known = { ...REFUSED, value: 19, low: 18, high: 20, designed: 20 } as unknown as Estimate;
  expect(withChargingByFault([known], [WEAK], 9000)).toEqual([known]);
});
