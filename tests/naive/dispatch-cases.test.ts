/** The closed-form dispatch cases through the naive simulator, at every step size at which they are exact. */
import { describe, expect, it } from 'vitest';
import { DISPATCH_CASES } from '../references/dispatch-cases.ts';
import { MEASURES, type Measure } from '../references/dispatch-measures.ts';
import { simulateNaive } from './simulate.ts';

describe.each(DISPATCH_CASES)('$name', ({ system, exactAtMin, expected }) => {
  it.each(exactAtMin)('at %d min', (stepMin) => {
    const { plant, controls, inputs } = system(stepMin);
    const run = simulateNaive(plant, controls, inputs);
    for (const [measure, value] of Object.entries(expected)) {
      const got = MEASURES[measure as Measure](run);
      if (Number.isNaN(value)) expect(got, measure).toBeNaN();
      else expect(Math.abs(got - value) / Math.max(1, Math.abs(value)), measure).toBeLessThan(1e-9);
    }
    const { totals } = run;
    expect(totals.servedKwh + totals.unservedKwh).toBeCloseTo(totals.loadKwh, 6);
    expect(totals.worstResidualKwh).toBeLessThan(1e-11);
  });
});
