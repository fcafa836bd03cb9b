/** The closed-form dispatch cases through the public engine, at every step size at which they are exact. */
import { describe, expect, it } from 'vitest';
import { simulate } from '../../src/sim/simulate.ts';
import { DISPATCH_CASES } from '../references/dispatch-cases.ts';
import { MEASURES, type Measure } from '../references/dispatch-measures.ts';
import { plainView } from './plain-view.ts';

describe.each(DISPATCH_CASES)('$name', ({ system, exactAtMin, expected }) => {
  it.each(exactAtMin)('at %d min', (stepMin) => {
    const { plant, controls, inputs } = system(stepMin);
    for (const check of [false, true]) {
      const run = plainView(simulate(plant, controls, inputs, { check }));
      for (const [measure, value] of Object.entries(expected)) {
        const got = MEASURES[measure as Measure](run);
        if (Number.isNaN(value)) expect(got, measure).toBeNaN();
        else expect(Math.abs(got - value) / Math.max(1, Math.abs(value)), measure).toBeLessThan(1e-9);
      }
    }
  });
});
