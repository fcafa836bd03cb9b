import { describe, expect, it } from 'vitest';
import { findFaults } from '../../../src/scenarios/visit/faults/find-faults.ts';
import type { Inputs } from '../../../src/sim/inputs.ts';
import { groundOf, logOf, thinFarm, truthOf } from './thin-farm.ts';

describe('nights with more load from some day on', () => {
  const farm = thinFarm(60);
  const sizeWith = (edit: (kw: number) => number): number | null => {
    const changed = (inputs: Inputs): Inputs => ({
      ...inputs,
      loadKw: inputs.loadKw.map((kw) => kw.map(edit)),
    });
    const stretches = [
      { fromDay: 0, changes: {} },
      { fromDay: 30, changes: {}, edit: changed },
    ];
    const faults = findFaults(groundOf(farm, logOf(truthOf(farm, stretches))));
    return faults.find(({ kind }) => kind === 'night-load')?.size ?? null;
  };

  it('are a load that stays on where the days have as much more', () => {
    expect(sizeWith((kw) => kw + 0.1)).toBeCloseTo(0.3, 1);
  });

  it('are none where the whole load has grown', () => {
    expect(sizeWith((kw) => 1.6 * kw)).toBe(null);
  });
});
