import { describe, expect, it } from 'vitest';
import { measuredLoad } from '../../../src/scenarios/visit/compare/measured-load.ts';

const kw = (...values: number[]) => Float64Array.from(values);
const GAP = Number.NaN;
const DESIGNED = { loadKw: [kw(1, 2, 1, 1), kw(3, 2, 0, 1)] };

describe('the load of a log for a run', () => {
  it('fills gaps with the designed load times what was measured, and counts them', () => {
    // 6 and 8 kW where 4 and 4 were designed, in the two steps that are known
    const found = measuredLoad(
      { loadKw: [kw(1, 2, 1, 1), kw(3, 2, 3, 1)] },
      { loadKw: kw(6, GAP, 8, GAP), phasesKw: null },
    );
    expect(found?.factor).toBeCloseTo(14 / 8, 12);
    expect(found?.filledSteps).toBe(2);
    expect(found?.inputs.loadKw[0][1]).toBeCloseTo((2 * 14) / 8, 12);
    expect(found?.inputs.loadKw[1][3]).toBeCloseTo(14 / 8, 12);
  });

  it('has each phase at its designed share, or as it was logged', () => {
    const shared = measuredLoad(DESIGNED, { loadKw: kw(8, 4, 2, 2), phasesKw: null });
    expect(Array.from(shared?.inputs.loadKw[0] ?? [])).toEqual([2, 2, 2, 1]);
    const logged = measuredLoad(DESIGNED, {
      loadKw: kw(8, 4, 2, 2),
      phasesKw: [kw(7, 1, 1, 0), kw(1, 3, 1, 2)],
    });
    expect(Array.from(logged?.inputs.loadKw[1] ?? [])).toEqual([1, 3, 1, 2]);
  });

  it('sheds no more than there is', () => {
    const sheddableKw = [kw(1, 1, 1, 1), kw(0, 0, 0, 0)];
    const found = measuredLoad({ ...DESIGNED, sheddableKw }, { loadKw: kw(2, 2, 0, 1), phasesKw: null });
    for (const [i, shed] of (found?.inputs.sheddableKw?.[0] ?? []).entries())
      expect(shed).toBeLessThanOrEqual(found?.inputs.loadKw[0][i] as number);
    expect(found?.inputs.sheddableKw?.[0][2]).toBe(0);
  });

  it('is not known without a column', () => {
    expect(measuredLoad(DESIGNED, { loadKw: null, phasesKw: null })).toBeNull();
  });
});
