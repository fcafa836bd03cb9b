/**
 * Several cabinets, against closed forms. A node with a heat path G to the outside and a capacity C rises under a heat
 * P by P/G in the end, and after a time t by P/G·(1 − exp(−t·G/C)): Newton's law of cooling, with the numbers of a
 * published example: 500 W, 22 W/K, 20 kJ/K give 22.7273 K in the end and 10.98065 K after 10 min.
 */
import { describe, expect, it } from 'vitest';
import type { Cabinet, Plant } from '../../src/sim/plant.ts';
import { chargeBetween, plainBattery, plainGenerator, plainInverter } from '../references/plain-site.ts';
import { battery, near, nearAll, nearList, run, series } from './small-run.ts';

/** All heat of the cells goes straight outside. */
const bare: Cabinet = {
  airKwhPerK: 0.01,
  batteryKwhPerK: 20 / 3600,
  airToOutsideKwPerK: 0.01,
  airToBatteryKwPerK: 0,
  batteryToOutsideKwPerK: 0.022,
  sunApertureM2: 0,
  initialC: 20,
  ...{ coolerKw: 0, coolerCop: 1, coolerOnC: 90, coolerOffC: 80 },
  ...{ heaterKw: 0, heaterOnC: -90, heaterOffC: -80, heaterMinSoc: 0 },
};

/** So much standby, all of it heat of the cells, and nothing else. */
const standing = (standbyKw: number, parts = {}) => battery(1000, { initialSoc: 0.9, standbyKw, ...parts });
const idle = (stepMin: number, hours: number, airC = 20) => ({
  stepMin,
  loadKw: series(stepMin, [0, hours]),
  inputs: { airC: series(stepMin, [airC, hours]) },
});

describe('cabinets with batteries', () => {
  it('warm each by its share of the heat: step response and steady state', () => {
    // 2 kW of heat: a quarter, the 500 W of the example, in the second cabinet
    const plant: Partial<Plant> = {
      battery: standing(2),
      cabinet: { ...bare, batteryKwhPerK: 1e6 },
      batteryCabinets: [{ cabinet: bare, batteryShare: 0.25 }],
    };
    // the first is so heavy that it stays at 20 °C
    const soon = run({ plant, ...idle(5, 1 / 6) });
    expect(Math.abs(soon.extremes.hottestCellC - 20 - 10.98065)).toBeLessThan(1e-5);
    const late = run({ plant, ...idle(5, 24) });
    expect(Math.abs(late.extremes.hottestCellC - 20 - 22.7273)).toBeLessThan(1e-4);
    // the column is the mean by share
    near(late.columns.cellC[287], 20 + (0.25 * 0.5) / 0.022 + 0.75 * (1.5 * 24e-6), 'mean of the cells');
  });

  it('come to rest where heat in is heat out, through the air of the cabinet too', () => {
    // a second way of 0.03 and 0.02 kW/K in series: 0.012 beside the 0.022
    const two = { ...bare, airToBatteryKwPerK: 0.03, airToOutsideKwPerK: 0.02, initialC: -5 };
    const plant: Partial<Plant> = {
      battery: standing(1),
      cabinet: two,
      batteryCabinets: [
        { cabinet: two, batteryShare: 0.2 },
        { cabinet: two, batteryShare: 0.3 },
      ],
    };
    const end = run({ plant, ...idle(15, 96, -5) });
    near(end.extremes.hottestCellC, -5 + 0.5 / 0.034, 'hottest');
    // shares 0.5, 0.2, 0.3 of 1 kW over 0.034 kW/K
    near(end.columns.cellC.at(-1)!, -5 + (0.5 * 0.5 + 0.2 * 0.2 + 0.3 * 0.3) / 0.034, 'mean');
  });

  it('two equal ones are one of double size', () => {
    const half: Cabinet = {
      ...bare,
      ...{
        airKwhPerK: 0.02,
        batteryKwhPerK: 0.2,
        airToBatteryKwPerK: 0.015,
        initialC: 4,
        sunApertureM2: 0.4,
      },
      ...{
        heaterKw: 0.25,
        heaterOnC: 1,
        heaterOffC: 3,
        coolerKw: 0.2,
        coolerCop: 2.5,
        coolerOnC: 15,
        coolerOffC: 26,
      },
    };
    const double: Cabinet = {
      ...half,
      ...{ airKwhPerK: 0.04, batteryKwhPerK: 0.4, sunApertureM2: 0.8, heaterKw: 0.5, coolerKw: 0.4 },
      airToOutsideKwPerK: 2 * half.airToOutsideKwPerK,
      airToBatteryKwPerK: 2 * half.airToBatteryKwPerK,
      batteryToOutsideKwPerK: 2 * half.batteryToOutsideKwPerK,
    };
    const hours = 72;
    const day = (value: (hour: number) => number) =>
      Float64Array.from({ length: hours * 4 }, (_, i) => value((i / 4) % 24));
    const weather = {
      airC: day((hour) => 4 - Math.abs(hour - 14)),
      cabinetSunWPerM2: day((hour) => Math.max(0, 900 - 30 * (hour - 12) ** 2)),
      dcArrayKw: day((hour) => Math.max(0, 8 - (hour - 12) ** 2 / 2)),
    };
    const store = plainBattery(60, 0.95, {
      initialSoc: 0.5,
      standbyKw: 0.05,
      taperStartSoc: 0.9,
      maxChargeKw: 12,
    });
    const site = (plant: Partial<Plant>) =>
      run({
        stepMin: 15,
        plant: { battery: store, inverter: plainInverter(), ...plant },
        loadKw: day((hour) => (hour > 17 ? 3 : 0.5)),
        inputs: weather,
      });
    const one = site({ cabinet: double });
    const two = site({ cabinet: half, batteryCabinets: [{ cabinet: half, batteryShare: 0.5 }] });
    nearAll(two.totals, {
      heaterKwh: one.totals.heaterKwh,
      coolerKwh: one.totals.coolerKwh,
      frostKwh: one.totals.frostKwh,
      chargeKwh: one.totals.chargeKwh,
      servedKwh: one.totals.servedKwh,
    });
    nearList(two.columns.cellC, [...one.columns.cellC], 'cells');
    // all three are at work in these days
    for (const what of ['heaterKwh', 'coolerKwh', 'frostKwh'] as const)
      expect(one.totals[what], what).toBeGreaterThan(0.1);
  });

  it('take charge each by its share and its temperature', () => {
    // 20 °C takes all, 5 °C half, below 0 °C nothing: 0.5 + 0.3·0.5 + 0 of 10 kW
    const heavy = (initialC: number) => ({ ...bare, batteryKwhPerK: 1e9, initialC });
    const plant: Partial<Plant> = {
      battery: battery(1000, { maxChargeKw: 10 }),
      cabinet: heavy(20),
      batteryCabinets: [
        { cabinet: heavy(5), batteryShare: 0.3 },
        { cabinet: heavy(-3), batteryShare: 0.2 },
      ],
    };
    const sunny = { ...idle(60, 1), inputs: { airC: series(60, [5, 1]), dcArrayKw: series(60, [20, 1]) } };
    const got = run({ plant, ...sunny });
    nearAll(got.totals, { chargeKwh: 6.5, frostKwh: 3.5 });
    nearAll(got.extremes, { coldestCellC: -3, hottestCellC: 20 });
  });

  it('of which one holds no cells do not count among the cells', () => {
    // an empty cabinet at 40 °C and frozen cells: no charge run is begun, and no cell is at 40 °C
    const heavy = (initialC: number) => ({ ...bare, batteryKwhPerK: 1e9, initialC });
    const plant: Partial<Plant> = {
      battery: battery(1000),
      cabinet: heavy(-3),
      batteryCabinets: [{ cabinet: heavy(40), batteryShare: 0 }],
      generator: plainGenerator(5),
    };
    const got = run({ plant, controls: chargeBetween(0.6, 0.9), ...idle(60, 2, -3) });
    // to what 1 GWh/K lets it move in two hours
    near(got.extremes.coldestCellC, -3, 'coldest');
    near(got.extremes.hottestCellC, -3, 'hottest');
    expect(got.runs).toHaveLength(0);
    const warm = run({
      plant: { ...plant, cabinet: heavy(20) },
      controls: chargeBetween(0.6, 0.9),
      ...idle(60, 2),
    });
    expect(warm.runs).toHaveLength(1);
  });
});
