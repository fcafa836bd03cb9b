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

describe('the days that are cut out of the weather', () => {
  /** Forty days of hours: air, sun and load by the number of the day. */
  const count = 40 * 24;
  const byDay = (value: (day: number) => number) =>
    Float64Array.from({ length: count }, (_, i) => value(Math.floor(i / 24)));
  const sunny = { 2: 900, 30: 700, 33: 100 } as Record<number, number>;
  const run = (design: object) => {
    const plant = inventedPlant(12, 0);
    plant.generator = null;
    plant.tank = null;
    plant.cabinet = plant.cabinet && { ...plant.cabinet, coolerKw: 0 };
    return {
      site: { design: { days: 5, ...design } },
      plant,
      controls: { ...inventedControls(0.3, 0.8), charge: null, peak: null },
      inputs: {
        stepMin: 60,
        count,
        // the hottest day is the 20th, the coldest the 33rd
        airC: byDay((day) => ({ 20: 35, 33: -20 })[day] ?? 10),
        cabinetSunWPerM2: byDay((day) => sunny[day] ?? 50),
        dcArrayKw: byDay((day) => (sunny[day] ?? 50) / 100),
        loadKw: [1, 2, 3].map((phase) => byDay((day) => (day * phase) / 100)),
        refillSteps: Int32Array.from([500]),
      },
    } as unknown as CheckedRun;
  };

  it('are the hottest with the sun of the sunniest of all, and its own load', () => {
    const stretch = designStretch(run({}), 'hottest');
    expect(stretch).toMatchObject({ highC: 35, lowC: 35, days: 5, highestLoadKw: 0.6 });
    expect(stretch?.offeredKwh).toBeCloseTo(24 * 9, 9);
    expect(stretch?.ledger.count).toBe(5 * 24);
    expect(stretch?.ledger.totals.loadKwh).toBeCloseTo(5 * 24 * 1.2, 9);
    // 0.4 m² that take in 900 W/m² keep the air well above the outside
    expect(stretch?.lastDay.cabinetC[23]).toBeGreaterThan(40);
  });

  it('are the coldest with the arrays’ best day within two weeks, and the cabinet in shade', () => {
    const stretch = designStretch(run({ coldestC: -24, dailySwingK: 6 }), 'coldest');
    expect(stretch).toMatchObject({ highC: -18, lowC: -24, highestLoadKw: 0.99 });
    expect(stretch?.offeredKwh).toBeCloseTo(24 * 7, 9);
    // no sun: it stays near the outside, and frozen cells refuse all but what load and standby take
    expect(Math.max(...(stretch?.lastDay.cabinetC ?? []))).toBeLessThan(-10);
    expect(stretch?.lostKwh).toBeGreaterThan(0.5 * 24 * 7);
  });

  it('need a cabinet', () => {
    const none = run({});
    none.plant.cabinet = null;
    expect(designStretch(none, 'hottest')).toBeNull();
  });
});
