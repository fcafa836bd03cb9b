import { BY_THE_HOUR, type DispatchCase, dispatchCase } from './dispatch-case.ts';
import { type Daily, plainBattery, plainGenerator, plainInverter } from './plain-site.ts';

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

export const peakCases: DispatchCase[] = [
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

export const arrayCases: DispatchCase[] = [
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
