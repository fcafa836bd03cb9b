import { BY_THE_HOUR, type DispatchCase, dispatchCase } from './dispatch-case.ts';
import { chargeBetween, plainBattery, plainGenerator } from './plain-site.ts';

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

export const squareWaveCases: DispatchCase[] = [
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
