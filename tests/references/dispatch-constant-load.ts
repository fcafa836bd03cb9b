import type { Plant } from '../../src/sim/plant.ts';
import { BY_THE_HOUR, type DispatchCase, dispatchCase } from './dispatch-case.ts';
import { chargeBetween, type Daily, plainBattery, plainGenerator, plainInverter } from './plain-site.ts';

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

/** A4: 45 kWh, of which the middle half is used. */
function awkwardPeriod(
  steps: string,
  derivation: string,
  exactAtMin: readonly number[],
  expected: DispatchCase['expected'],
): DispatchCase {
  return dispatchCase(
    `A4 awkward period${steps}`,
    derivation,
    exactAtMin,
    {
      plant: { battery: plainBattery(45, 0.9, { initialSoc: 0.75 }), generator: plainGenerator(25) },
      controls: chargeBetween(0.25, 0.75),
      load: { baseKw: 5 },
      hours: 5300,
    },
    expected,
  );
}

export const constantLoad: DispatchCase[] = [
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
  awkwardPeriod(
    '',
    'L 5, E 22.5, hc = hd = 0.9, Pg 25: off 243 min, on 75 min; 5300 h are 1000 periods of 318 min',
    [3, 1],
    { starts: 1000, runH: 1250, generatorKwh: 31_250, fuelL: 10_312.5, unservedKwh: 0 },
  ),
  ...[
    { stepMin: 5, starts: 943 },
    { stepMin: 15, starts: 840 },
    { stepMin: 30, starts: 833 },
  ].map(({ stepMin, starts }) =>
    awkwardPeriod(
      ` in steps of ${stepMin} min that do not divide it`,
      'no closed form: overshoot lengthens the period; counted by a separate simulation in rational numbers',
      [stepMin],
      { starts, unservedKwh: 0 },
    ),
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

export const dryTankCases: DispatchCase[] = [
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
