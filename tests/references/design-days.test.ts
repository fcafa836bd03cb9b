/** A cabinet on repeated design days against closed forms of its thermal equations, derived for this project. */
import { describe, expect, it } from 'vitest';
import type { CheckedRun } from '../../src/scenarios/design-checks/check.ts';
import { designAirC, designStretch } from '../../src/scenarios/design-checks/design-days.ts';
import { inventedControls, inventedPlant } from '../report/fixture-site.ts';

const STEP_MIN = 5;
const DAYS = 30;

/** A cabinet with one heat path, air to outside, and a constant loss into the air; the battery hangs on nothing. */
function stretchOf(tauH: number, lossKw: number, lowC: number, highC: number, which: 'hottest' | 'coldest') {
  const plant = inventedPlant(12, 0);
  const pathKwPerK = 0.022;
  plant.generator = null;
  plant.tank = null;
  plant.inverter = { ...plant.inverter, idleKw: lossKw / 3, lossLinear: 0, lossQuadraticPerKw: 0 };
  plant.battery = plant.battery && { ...plant.battery, standbyKw: 0, capacityKwh: 10_000, dischargeEff: 1 };
  plant.cabinet = plant.cabinet && {
    ...plant.cabinet,
    airKwhPerK: pathKwPerK * tauH,
    airToOutsideKwPerK: pathKwPerK,
    airToBatteryKwPerK: 0,
    batteryToOutsideKwPerK: 0,
    coolerKw: 0,
  };
  const count = (DAYS * 1440) / STEP_MIN;
  const none = () => new Float64Array(count);
  const run = {
    site: {
      design: { hottestC: highC, coldestC: lowC, dailySwingK: highC - lowC, days: 10 },
    },
    plant,
    controls: { ...inventedControls(0.3, 0.8), charge: null, peak: null },
    inputs: { stepMin: STEP_MIN, count, loadKw: [none(), none(), none()], airC: none() },
  } as unknown as CheckedRun;
  const stretch = designStretch(run, which);
  if (stretch === null) throw new Error('no cabinet');
  return stretch.lastDay.cabinetC;
}

const highest = (values: Float64Array) => Math.max(...values);
const lowest = (values: Float64Array) => Math.min(...values);

describe('a cabinet that has settled', () => {
  it('is 22.7273 K above the air with 500 W through 22 W/K', () => {
    const air = stretchOf(0.25, 0.5, 35, 35, 'hottest');
    expect(highest(air) - 35).toBeCloseTo(22.7273, 4);
    expect(lowest(air) - 35).toBeCloseTo(22.7273, 4);
  });

  it('follows a day’s sine through a time constant of 2 h with 0.885908 of its swing, 110.5 min late', () => {
    for (const which of ['hottest', 'coldest'] as const) {
      const air = stretchOf(2, 0, 10, 30, which);
      const swing = (highest(air) - lowest(air)) / 20;
      expect(Math.abs(swing - 0.885908)).toBeLessThan(2e-4);
      const minute = (air.indexOf(highest(air)) + 1) * STEP_MIN;
      expect(Math.abs(minute - (15 * 60 + 110.546))).toBeLessThanOrEqual(STEP_MIN);
    }
  });

  it('has its hottest outside air at 15:00', () => {
    expect(designAirC(15, 10, 30)).toBeCloseTo(30, 12);
    expect(designAirC(3, 10, 30)).toBeCloseTo(10, 12);
    expect(designAirC(9, 10, 30)).toBeCloseTo(20, 12);
  });
});
