import type { Controls } from '../../src/sim/controls.ts';
import type { Plant } from '../../src/sim/plant.ts';
import { type Measure } from './dispatch-measures.ts';
import {
  chargeBetween,
  type Daily,
  dailyInputs,
  plainBattery,
  plainControls,
  plainGenerator,
  plainInverter,
  plainPlant,
  type System,
} from './plain-site.ts';

/**
 * Closed-form dispatch cases: the answer of each follows on paper from a few lines of arithmetic, which are its
 * `derivation`. Source of all of them: derived for this project, and found again exactly by a simulation in
 * rational numbers that shares nothing with this one.
 *
 * Store E between the start and the stop threshold [kWh, stored], one-way efficiencies hc and hd, load L [kW],
 * generator output Pg [kW] while charging: off for E·hd/L, on for E/(hc·(Pg − L)); fuel 2 L/h + 0.25 L/kWh.
 */
export interface DispatchCase {
  name: string;
  derivation: string;
  /** step lengths at which the answer is exact [min] */
  exactAtMin: readonly number[];
  system(stepMin: number): System;
  expected: Partial<Record<Measure, number>>;
}

const YEAR_H = 8760;
const BY_THE_HOUR = [60, 30, 15, 5];

function dispatchCase(
  name: string,
  derivation: string,
  exactAtMin: readonly number[],
  site: {
    plant: Partial<Plant>;
    controls?: Partial<Controls>;
    load: Daily;
    arrays?: { dc?: Daily; ac?: Daily };
    hours?: number;
  },
  expected: DispatchCase['expected'],
): DispatchCase {
  const system = (stepMin: number): System => ({
    plant: plainPlant(site.plant),
    controls: plainControls(site.controls),
    inputs: dailyInputs(stepMin, site.hours ?? YEAR_H, site.load, site.arrays),
  });
  return { name, derivation, exactAtMin, system, expected };
}

const load576: Daily = { baseKw: 5.76 };

/** A1 and its relatives: 48 kWh, of which the upper half is used. */
function halfOf48(initialSoc: number, chargerKw: number): Partial<Plant> {
  return {
    battery: plainBattery(48, 0.96, { initialSoc }),
    inverter: plainInverter({ chargerKw }),
    generator: plainGenerator(30.76),
  };
}

const a1Expected = {
  starts: 1752,
  runH: 1752,
  fuelL: 16_976.88,
  generatorKwh: 53_891.52,
  servedKwh: 50_457.6,
  unservedKwh: 0,
  lossKwh: 3_433.92,
  dischargeKwh: 42_048 * 0.96,
};

const constantLoad: DispatchCase[] = [
  dispatchCase(
    'A0 constant load, generator always on, no battery',
    '(2 + 0.25·5.76)·8760 L',
    BY_THE_HOUR,
    { plant: { generator: plainGenerator(30.76) }, controls: { continuous: true }, load: load576 },
    { starts: 1, runH: 8760, fuelL: 30_134.4, generatorKwh: 5.76 * 8760, unservedKwh: 0 },
  ),
  dispatchCase(
    'A1 constant load, from full',
    'E 24, hc = hd = 0.96: off 24·0.96/5.76 = 4 h, on 24/(0.96·25) = 1 h; 8760/5 cycles of 9.69 L; 1.96 kWh lost each',
    BY_THE_HOUR,
    { plant: halfOf48(1, 100), controls: chargeBetween(0.5, 1), load: load576 },
    a1Expected,
  ),
  dispatchCase(
    'A1 constant load, from the start threshold',
    'the same cycle, begun with the run',
    BY_THE_HOUR,
    { plant: halfOf48(0.5, 100), controls: chargeBetween(0.5, 1), load: load576 },
    a1Expected,
  ),
  dispatchCase(
    'A2 charger of 12.5 kW',
    'on 24/(0.96·12.5) = 2 h at 18.26 kW: 8760/6 runs of 2 h at 6.565 L/h',
    BY_THE_HOUR,
    { plant: halfOf48(1, 12.5), controls: chargeBetween(0.5, 1), load: load576 },
    { starts: 1460, runH: 2920, fuelL: 19_169.8, generatorKwh: 53_319.2, unservedKwh: 0 },
  ),
  dispatchCase(
    'A3 minimum run of 2 h',
    'full after 1 h, the second hour at 5.76 kW: 8760/6 runs of 9.69 + 3.44 L; equal to A2, for with a straight fuel line only hours and energy count',
    BY_THE_HOUR,
    { plant: halfOf48(1, 100), controls: { ...chargeBetween(0.5, 1), minRunH: 2 }, load: load576 },
    { starts: 1460, runH: 2920, fuelL: 19_169.8, generatorKwh: 53_319.2, unservedKwh: 0 },
  ),
  dispatchCase(
    'A4 awkward period',
    'L 5, E 22.5, hc = hd = 0.9, Pg 25: off 243 min, on 75 min; 5300 h are 1000 periods of 318 min',
    [3, 1],
    {
      plant: { battery: plainBattery(45, 0.9, { initialSoc: 0.75 }), generator: plainGenerator(25) },
      controls: chargeBetween(0.25, 0.75),
      load: { baseKw: 5 },
      hours: 5300,
    },
    { starts: 1000, runH: 1250, generatorKwh: 31_250, fuelL: 10_312.5, unservedKwh: 0 },
  ),
];

/** B1: 10 kW from 8 to 16 h, load 3 kW, 50 kWh. */
function squareWave(from: string, initialSoc: number, expected: DispatchCase['expected']): DispatchCase {
  return dispatchCase(
    `B1 square-wave array without generator, from ${from}`,
    'night 16·3/0.96 = 50 kWh; full after 50/(7·0.96) = 625/84 h of the 8; curtailed (8 − 625/84)·7 = 47/12 kWh a day',
    [60, 20, 15, 5],
    {
      plant: { battery: plainBattery(50, 0.96, { initialSoc }) },
      load: { baseKw: 3 },
      arrays: { dc: { baseKw: 0, blockKw: 10, fromH: 8, toH: 16 } },
    },
    expected,
  );
}

/** B2: 8 kW from 8 to 16 h, load 4 kW, 32 kWh above the start threshold at 8 of 40 kWh, generator 12 kW. */
function squareWaveAndGenerator(
  stopKwh: number,
  pattern: string,
  exactAtMin: readonly number[],
  expected: DispatchCase['expected'],
  initialKwh = 0,
): DispatchCase {
  return dispatchCase(
    `B2 square-wave array and generator, stop at ${stopKwh} kWh, from ${initialKwh} kWh`,
    `day pattern ${pattern}; balance of a day: array 64 − curtailed + generator = load 96 kWh`,
    exactAtMin,
    {
      plant: {
        battery: plainBattery(40, 1, { initialSoc: (8 + initialKwh) / 40 }),
        generator: plainGenerator(12),
      },
      controls: chargeBetween(8 / 40, (8 + stopKwh) / 40),
      load: { baseKw: 4 },
      arrays: { dc: { baseKw: 0, blockKw: 8, fromH: 8, toH: 16 } },
    },
    { ...expected, unservedKwh: 0 },
  );
}

const squareWaveCases: DispatchCase[] = [
  squareWave('half', 0.5, { unservedKwh: 0, curtailedKwh: 1_429.583_333_333_333_3 }),
  squareWave('empty', 0, { unservedKwh: 24, firstUnservedH: 0 }),
  squareWave('full', 1, { unservedKwh: 0, curtailedKwh: 1_455.625 }),
  squareWaveAndGenerator(32, 'on 0-4 h', BY_THE_HOUR, {
    starts: 365,
    runH: 1460,
    generatorKwh: 17_520,
    curtailedKwh: 5_840,
    fuelL: 7_300,
  }),
  squareWaveAndGenerator(16, 'on 0-2, 6-8 h', BY_THE_HOUR, {
    starts: 730,
    runH: 1460,
    generatorKwh: 17_520,
    curtailedKwh: 5_840,
    fuelL: 7_300,
  }),
  squareWaveAndGenerator(8, 'on 0-1, 3-4, 6-7 h', BY_THE_HOUR, {
    starts: 1095,
    runH: 1095,
    generatorKwh: 13_140,
    curtailedKwh: 1_460,
    fuelL: 5_475,
  }),
  squareWaveAndGenerator(4, 'six half-hours', [30, 15, 5], {
    starts: 2190,
    runH: 1095,
    generatorKwh: 13_140,
    curtailedKwh: 1_460,
    fuelL: 5_475,
  }),
  squareWaveAndGenerator(
    16,
    'as above after a first night without a run',
    BY_THE_HOUR,
    { starts: 729, runH: 1457, fuelL: 7_285 },
    32,
  ),
];

/** C: A1 with 4.8 kWh below the start threshold, 28.8 kWh in all, 72 h. */
function dryTank(
  name: string,
  litres: number,
  derivation: string,
  exactAtMin: readonly number[],
  expected: DispatchCase['expected'],
): DispatchCase {
  return dispatchCase(
    name,
    derivation,
    exactAtMin,
    {
      plant: {
        battery: plainBattery(28.8, 0.96),
        generator: plainGenerator(30.76),
        tank: { capacityL: litres, initialL: litres, reserveL: 0, orderAtL: -1, leadH: 0 },
      },
      controls: chargeBetween(4.8 / 28.8, 1),
      load: load576,
      hours: 72,
    },
    expected,
  );
}

const dryTankCases: DispatchCase[] = [
  dryTank(
    'C1 tank runs dry with the battery full',
    96.9,
    'ten runs of 9.69 L, the last ends at 50 h; 4 h to the threshold, 4.8·0.96/5.76 = 0.8 h more; 17.2 h of 5.76 kW unserved',
    [60, 12, 6, 3, 1],
    {
      starts: 10,
      runH: 10,
      fuelL: 96.9,
      generatorKwh: 307.6,
      unservedKwh: 99.072,
      unservedTankDryKwh: 99.072,
      firstUnservedH: 54.8,
      unservedH: 17.2,
    },
  ),
  dryTank(
    'C2 tank runs dry during a run',
    101.745,
    'the eleventh run, at 54 h, lasts 0.5 h (+12 kWh); (12 + 4.8)/6 = 2.8 h more; 14.7 h of 5.76 kW unserved',
    // at a whole hour too, since a segment ends when the tank is dry
    [60, 6, 3, 1],
    {
      starts: 11,
      runH: 10.5,
      fuelL: 101.745,
      generatorKwh: 322.98,
      unservedKwh: 84.672,
      unservedTankDryKwh: 84.672,
      firstUnservedH: 57.3,
      unservedH: 14.7,
    },
  ),
];

/** D: generator of 20 kW always on, load 12 kW but 28 kW from 17 to 19 h. */
function peakAboveRating(
  name: string,
  derivation: string,
  battery: { kWh: number; inverterKw: number } | null,
  unservedKwhPerDay: number,
  generatorKwhPerDay: number,
): DispatchCase {
  return dispatchCase(
    name,
    derivation,
    BY_THE_HOUR,
    {
      plant: {
        battery: battery && plainBattery(battery.kWh, 0.96),
        inverter: plainInverter({ ratedKw: battery?.inverterKw ?? 8 }),
        generator: plainGenerator(20),
      },
      controls: { continuous: true, peakAssist: true },
      load: { baseKw: 12, blockKw: 28, fromH: 17, toH: 19 },
    },
    {
      starts: 1,
      unservedKwh: unservedKwhPerDay * 365,
      firstUnservedH: unservedKwhPerDay > 0 ? (battery?.kWh === 12.5 ? 18.5 : 17) : Number.NaN,
      generatorKwh: generatorKwhPerDay * 365,
      fuelL: 365 * (48 + 0.25 * generatorKwhPerDay),
    },
  );
}

const peakCases: DispatchCase[] = [
  peakAboveRating('D0 peak above the rating, no battery', '8 kW·2 h a day; 22·12 + 2·20 kWh', null, 16, 304),
  peakAboveRating(
    'D1 peak carried by the battery',
    '16/0.96 = 16.667 of 20 kWh; generator 304 + 16/0.9216 kWh a day',
    { kWh: 20, inverterKw: 8 },
    0,
    304 + 16 / 0.9216,
  ),
  peakAboveRating(
    'D2 peak above the inverter',
    '2 kW·2 h a day unserved; generator 304 + 12/0.9216 kWh a day',
    { kWh: 20, inverterKw: 6 },
    4,
    304 + 12 / 0.9216,
  ),
  peakAboveRating(
    'D3 peak longer than the battery',
    '12.5 kWh at 8.333 kW last 1.5 h: 8 kW·0.5 h a day unserved; generator 304 + 12/0.9216 kWh a day',
    { kWh: 12.5, inverterKw: 8 },
    4,
    304 + 12 / 0.9216,
  ),
];

const minimumLoad = {
  starts: 1,
  curtailedKwh: 20_440,
  generatorKwh: 416 * 365,
  fuelL: 55_480,
  unservedKwh: 0,
};
const array15: Daily = { baseKw: 0, blockKw: 15, fromH: 8, toH: 16 };

const arrayCases: DispatchCase[] = [
  dispatchCase(
    'F minimum load, AC-coupled array held back',
    'load 20, minimum 30 % of 40 = 12 kW, so 8 of 15 kW used: curtailed 7·8 kWh a day, generator 16·20 + 8·12 kWh',
    BY_THE_HOUR,
    {
      plant: { generator: plainGenerator(40, { minLoadFrac: 0.3 }) },
      controls: { continuous: true, acArrayOnLoad: 'held' },
      load: { baseKw: 20 },
      arrays: { ac: array15 },
    },
    minimumLoad,
  ),
  dispatchCase(
    'F minimum load, DC-coupled surplus to the AC side',
    'the same through lossless inverters',
    BY_THE_HOUR,
    {
      plant: { generator: plainGenerator(40, { minLoadFrac: 0.3 }) },
      controls: { continuous: true, dcToAcOnLoad: true },
      load: { baseKw: 20 },
      arrays: { dc: array15 },
    },
    minimumLoad,
  ),
  dispatchCase(
    'G array and battery only, from empty',
    'L 3, 6 kW from 8 to 16 h, 20 kWh: full at 14:40, 4 kWh curtailed, empty at 22:40, 28 kWh unserved a day',
    [60, 20, 10, 5],
    {
      plant: { battery: plainBattery(20, 1, { initialSoc: 0 }) },
      load: { baseKw: 3 },
      arrays: { dc: { baseKw: 0, blockKw: 6, fromH: 8, toH: 16 } },
    },
    {
      unservedKwh: 10_220,
      unservedEnergyKwh: 10_220,
      curtailedKwh: 1_460,
      dischargeKwh: 7_300,
      chargeKwh: 7_300,
      unservedH: (28 / 3) * 365,
      firstUnservedH: 0,
    },
  ),
];

export const DISPATCH_CASES: readonly DispatchCase[] = [
  ...constantLoad,
  ...squareWaveCases,
  ...dryTankCases,
  ...peakCases,
  ...arrayCases,
];
