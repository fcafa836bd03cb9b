import { z } from 'zod';
import { num, onPhase, text } from './site-fields.ts';

/** Values of a site that only the design checks look at: none of them changes a simulated figure. */

/** What a design is measured by; each has a default, taken from the weather used or from the habits of the trade. */
export const design = z
  .strictObject({
    recordLowC: num(
      'record low of the air',
      '°C',
      -70,
      30,
      'for the string voltage; lower than in a typical year',
    ).optional(),
    hottestC: num('hottest design day, highest', '°C', -20, 65, 'default: the weather used').optional(),
    coldestC: num('coldest design day, lowest', '°C', -70, 40, 'default: the weather used').optional(),
    dailySwingK: num(
      'highest less lowest of a design day',
      'K',
      0,
      40,
      'default: that day of the weather',
    ).optional(),
    days: num('design days in a row', 'd', 5, 60).int().default(5),
    mostStartsPerDay: num('most generator starts a day', '', 1, 48, 'common practice: 4').default(4),
    rechargeH: num('longest recharge by the generator', 'h', 0.5, 72, 'common practice: 8').default(8),
    autonomyDays: num(
      'least autonomy without generator',
      'd',
      0,
      30,
      'default: 4 without a generator, half a day with one that starts by itself',
    ).optional(),
  })
  .meta({ title: 'design', description: 'what the design checks measure by' });

const codeLetter = z
  .string()
  .regex(/^[A-HJ-NPR-U]$/, 'one of A to U, without I, O and Q')
  .meta({ title: 'code letter', description: 'of the plate: locked-rotor kVA per horsepower' });

export const motor = z.strictObject({
  name: text('name'),
  ratedKw: num('rating at the shaft', 'kW', 0.01, 1000),
  efficiency: num('efficiency', '0 to 1', 0.2, 1, 'at rated output').default(0.87),
  powerFactor: num('power factor', '0.1 to 1', 0.1, 1, 'at rated output').default(0.85),
  startMultiple: num(
    'starting current over running, direct on line',
    'times',
    1,
    12,
    'common practice: 6 to 8',
  ).default(7),
  codeLetter: codeLetter.optional(),
  startPowerFactor: num('power factor while starting', '0.05 to 1', 0.05, 1, 'common practice: 0.4').default(
    0.4,
  ),
  method: z
    .enum(['direct', 'starDelta', 'autotransformer65', 'autotransformer80', 'soft', 'variableSpeed'])
    .default('direct')
    .meta({
      title: 'how it is started',
      description: 'by autotransformer on its tap of 65 or 80 %; soft: half the direct current',
    }),
  phase: onPhase.default('all').meta({ title: 'phase', description: "'all': a three-phase motor" }),
});

export const breaker = z.strictObject({
  name: text('name'),
  ratedA: num('rated current', 'A', 0.5, 1000),
  curve: z.enum(['B', 'C', 'D']).meta({ title: 'curve', description: 'of its instantaneous release' }),
});

/** More about an inverter. */
export const inverterDesign = {
  surgeTimes: num(
    'short overload over rating',
    'times',
    1,
    5,
    'for some seconds, as a motor needs to start; data sheet',
  ).optional(),
  faultTimes: num('short-circuit current over rated current', 'times', 0.5, 20, 'data sheet').optional(),
};

/** More about a battery. */
export const batteryDesign = {
  modulePeakKw: num(
    'discharge power of a module for some seconds',
    'kW',
    0,
    1000,
    'DC side; data sheet',
  ).optional(),
  warranty: z
    .strictObject({
      years: num('years', 'a', 0.5, 40),
      cycles: num('full cycles', '', 1, 100_000, 'in those years').optional(),
      throughputKwhPerModule: num('discharge of a module', 'kWh', 1, 10_000_000, 'in those years').optional(),
      lowestC: num('coldest cells', '°C', -60, 40).optional(),
      highestC: num('hottest cells', '°C', 0, 90).optional(),
    })
    .nullable()
    .default(null)
    .meta({ title: 'warranty', description: 'the limits that its maker states' }),
};

/** More about a generator. */
export const generatorDesign = {
  ratingClass: z.enum(['continuous', 'prime', 'limitedTime', 'standby']).optional().meta({
    title: 'class of its rating',
    description: 'of ISO 8528-1: continuous (COP), prime (PRP), limited-time (LTP), emergency standby (ESP)',
  }),
  powerFactor: num('power factor of its rating', '0.1 to 1', 0.1, 1, 'common practice: 0.8').default(0.8),
  transientReactance: num(
    "transient reactance X'd",
    'per unit',
    0.02,
    1,
    'alternator data sheet; 0.15 to 0.25, common practice',
  ).optional(),
  performanceClass: z.enum(['G1', 'G2', 'G3']).default('G2').meta({
    title: 'performance class',
    description: 'of ISO 8528-5: how far its voltage may dip; G2, common practice',
  }),
};

export type Motor = z.infer<typeof motor>;
export type Breaker = z.infer<typeof breaker>;
