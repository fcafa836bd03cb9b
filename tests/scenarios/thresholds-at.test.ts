import { describe, expect, it } from 'vitest';
import { thresholdsAt } from '../../src/scenarios/thresholds-at.ts';
import type { Controls } from '../../src/sim/controls.ts';
import type { Inputs } from '../../src/sim/inputs.ts';

const charge = { startSoc: 0.3, stopSoc: 0.8, delayH: 0, tailKw: 0, tailH: 0, absorptionMaxH: 4 };
const peak = { startKw: 5, delayH: 0, stopKw: 3, holdH: 0.2, charges: true };
const set = { startSoc: 0.5, stopSoc: 0.9, urgentSoc: 0.2, peakStartKw: 6, peakStopKw: 4 };
const controls = { charge, peak, urgentSoc: 0.15, sets: [set] } as unknown as Controls;
const inputs = { thresholdSet: Uint8Array.from([0, 1]) } as unknown as Inputs;

describe('thresholds of a step', () => {
  it('are those of the calendar where it sets others', () => {
    expect(thresholdsAt(controls, inputs, 0)).toEqual({
      ...{ startSoc: 0.3, stopSoc: 0.8, urgentSoc: 0.15, peakStartKw: 5, byCalendar: false },
    });
    expect(thresholdsAt(controls, inputs, 1)).toEqual({
      ...{ startSoc: 0.5, stopSoc: 0.9, urgentSoc: 0.2, peakStartKw: 6, byCalendar: true },
    });
  });

  it('are none without a rule, whatever the calendar says', () => {
    const bare = thresholdsAt({ ...controls, charge: null, peak: null }, inputs, 1);
    expect(bare).toMatchObject({ startSoc: null, stopSoc: null, peakStartKw: null });
    expect(thresholdsAt(controls, {} as Inputs, 1).byCalendar).toBe(false);
  });
});
