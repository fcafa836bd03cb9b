import { z } from 'zod';
import { LOSS_DEFAULTS } from './inverter-losses.ts';
import { arraySky } from './site-array.ts';
import { batteryDesign, inverterDesign } from './site-design.ts';
import { frac, num, onPhase, text } from './site-fields.ts';
import { arrayStrings } from './site-strings.ts';

export const array = z.strictObject({
  name: text('name of the array'),
  kWp: num('rating', 'kWp', 0, 10_000, 'at 1000 W/m² and 25 °C'),
  tiltDeg: num('tilt', '°', 0, 90, '0 lies flat'),
  azimuthDeg: num('azimuth', '° from north, clockwise', 0, 360, '0 faces north, 90 east'),
  coupling: z
    .enum(['dc', 'ac'])
    .meta({ title: 'coupling', description: 'behind a charge controller, or behind its own inverter' }),
  noctC: num('nominal operating cell temperature', '°C', 30, 70, 'common practice: 45').default(45),
  powerPerK: num('temperature coefficient of power', '1/K', -0.01, 0, 'common practice: -0.0035').default(
    -0.0035,
  ),
  soiling: frac('lost to soiling', 'common practice: 0.03').default(0.03),
  wiring: frac('lost in wiring', 'common practice: 0.02').default(0.02),
  albedo: frac('albedo of the ground', 'common practice: 0.2; fresh snow 0.8').default(0.2),
  efficiency: num('efficiency of controller or inverter', '0 to 1', 0.5, 1, 'common practice: 0.97').default(
    0.97,
  ),
  controllerA: num(
    'output current of the charge controllers',
    'A',
    0,
    100_000,
    'all together; DC-coupled',
  ).optional(),
  inverterKw: num('rating of the array inverter', 'kW', 0, 10_000, 'AC-coupled').optional(),
  phase: onPhase.default('all').meta({ title: 'phase', description: 'that an AC-coupled array feeds' }),
  ...arrayStrings,
  ...arraySky,
});

/** How the battery wears; without it no life is worked out. The numbers come from its maker. */
const wear = z
  .strictObject({
    cycleLife: z
      .array(
        z.strictObject({
          depth: num('depth of discharge', '0 to 1', 0.01, 1),
          cycles: num('cycles to failure', '', 1, 1_000_000),
        }),
      )
      .min(2)
      .max(12)
      .meta({ title: 'cycle life', description: 'two or more points, depths rising' }),
    fadeFirstYear: frac(
      'capacity lost in the first year',
      'by age alone, at the reference temperature',
    ).default(0.02),
    timeExponent: num('time exponent', '', 0.1, 1, '0.5: square root of time; 1: straight').default(0.5),
    referenceC: num('reference temperature', '°C', 0, 60).default(25),
    halvingK: num('rise that halves the life', 'K', 5, 100, 'common practice: 10').default(10),
    endOfLife: num('end of life', '0 to 1', 0.3, 0.95, 'of the new capacity, common practice: 0.8').default(
      0.8,
    ),
    resistancePerAgeFade: num(
      'growth of resistance by age',
      'per capacity lost by age',
      0,
      10,
      '2: a battery that has lost a tenth of its capacity has a fifth more resistance; acts in a horizon only',
    ).default(0),
    resistancePerCycleFade: num(
      'growth of resistance by cycles',
      'per capacity lost by cycles',
      0,
      10,
      'the same for what cycles take',
    ).default(0),
  })
  .meta({ title: 'wear', description: 'from which the years to the end of life are worked out' });

/**
 * The kinetic model of a lead-acid bank: its two numbers, with moduleKwh what it gives at a vanishing current; or
 * Peukert's law, to which they are fitted, with moduleKwh what it gives in the rated time.
 */
const leadAcid = z
  .strictObject({
    atHand: num(
      'share at hand',
      '0 to 1',
      0.05,
      0.95,
      'of the charge when at rest; from its discharge table; or peukert',
    ).optional(),
    ratePerH: num(
      'rate constant',
      '1/h',
      0.001,
      20,
      'at which bound charge becomes free; with atHand',
    ).optional(),
    peukert: z
      .strictObject({
        exponent: num("Peukert's exponent", '', 1.02, 2, 'common practice: 1.1 to 1.3'),
        ratedH: num('rated discharge time', 'h', 1, 100, 'in which a module gives moduleKwh').default(20),
      })
      .optional()
      .meta({
        title: "Peukert's law",
        description: 'in place of atHand and ratePerH, which are fitted to it',
      }),
  })
  .meta({ title: 'lead-acid', description: 'two wells (Manwell and McGowan 1993); left out: lithium' });

/** The state of charge that is shown, and that the thresholds act on. */
const display = z
  .strictObject({
    driftPerDay: num('drift', '1/day', -0.2, 0.2, 'positive shows too much; common practice: up to 0.01'),
    most: frac('never off by more than').default(0.1),
    resetSoc: frac('right again at').default(0.99),
  })
  .meta({ title: 'shown state of charge', description: 'left out: it is true' });

export const battery = z.strictObject({
  modules: num('modules in parallel', '', 1, 10_000).int(),
  moduleKwh: num('capacity of a module', 'kWh', 0.01, 1000),
  moduleChargeKw: num('charge power of a module', 'kW', 0, 1000, 'DC side'),
  moduleDischargeKw: num('discharge power of a module', 'kW', 0, 1000, 'DC side'),
  busV: num('nominal bus voltage', 'V', 12, 1000).default(51.2),
  initialSoc: frac('state of charge at the start').default(0.8),
  cutoffSoc: frac('low cut-off', 'the inverters stop here').default(0.1),
  reconnectSoc: frac('reconnection above the cut-off').default(0.05),
  deadSoc: frac('own protection opens at', 'a person must come').default(0.03),
  taperStartSoc: frac('charging tapers from').default(0.9),
  taperEnd: frac('acceptance left at full', 'share of the charge power').default(0.1),
  chargeEfficiency: num('one-way efficiency, charging', '0 to 1', 0.5, 1).default(0.97),
  dischargeEfficiency: num('one-way efficiency, discharging', '0 to 1', 0.5, 1).default(0.97),
  wear: wear.nullable().default(null),
  leadAcid: leadAcid.nullable().default(null),
  display: display.nullable().default(null),
  ...batteryDesign,
  standbyW: num('standby draw', 'W', 0, 10_000, 'battery management and controllers, always on').default(30),
  noChargeC: num(
    'no charge at or below',
    '°C',
    -40,
    30,
    'lithium iron phosphate: 0, common practice',
  ).default(0),
  fullChargeC: num('full charge from', '°C', -40, 40, 'common practice: 10').default(10),
  hotFullC: num('full charge up to', '°C', 20, 80).default(45),
  hotNoneC: num('no charge from', '°C', 20, 90).default(55),
  thawMarginK: num('generator charges again this far above', 'K', 0, 20).default(2),
});

export const inverter = z.strictObject({
  phases: z.literal([1, 3]).meta({ title: 'phases' }),
  ratedKva: num('rating per phase', 'kVA', 0.1, 1000, 'of each unit, where several work in parallel'),
  unitsPerPhase: num(
    'units in parallel per phase',
    '',
    1,
    100,
    'rating, idle draw, charger and AC input limit are of each',
  )
    .int()
    .default(1),
  powerFactor: num('power factor of the load', '0.1 to 1', 0.1, 1).default(0.9),
  phaseV: num('phase voltage', 'V', 100, 300).default(230),
  idleW: num('idle draw per phase', 'W', 0, 5000).default(LOSS_DEFAULTS.idleW),
  lossLinear: frac('loss in proportion to power', 'common practice: 0.02').default(LOSS_DEFAULTS.lossLinear),
  lossAtRated: frac('further loss at rated power', 'share of rated power, growing as the square').default(
    LOSS_DEFAULTS.lossAtRated,
  ),
  efficiency: z
    .array(
      z.strictObject({
        share: num('power delivered', '0 to 1', 0.01, 1, 'of the rated power'),
        efficiency: num('efficiency there', '0 to 1', 0.3, 1, 'delivered over drawn, from the data sheet'),
      }),
    )
    .max(20)
    .default([])
    .meta({
      title: 'points of efficiency',
      description:
        'three or more, shares rising; idle draw and losses are fitted to them, in place of idleW, lossLinear, lossAtRated',
    }),
  chargerKw: num('charger per phase', 'kW', 0, 1000, 'AC side; or chargerA').optional(),
  chargerA: num(
    'charging current per phase',
    'A',
    0,
    10_000,
    'battery side, at the nominal bus voltage; or chargerKw',
  ).optional(),
  chargerEfficiency: num('charger efficiency', '0 to 1', 0.5, 1).default(0.94),
  acInputA: num(
    'AC input limit per phase',
    'A',
    0,
    10_000,
    'what the inverter may pass from the generator',
  ).default(100),
  overload: z
    .strictObject({
      to: num('short overload to', 'times the rating', 1.01, 3),
      minutes: num('for', 'min', 0.02, 120, 'from rest; less overload lasts longer in proportion'),
      recoveryMin: num('fresh again after', 'min', 1, 1440),
    })
    .nullable()
    .default(null)
    .meta({ title: 'short overload', description: 'left out: a load above the rating trips at once' }),
  derateKneeC: num('full power up to', '°C', 0, 80, 'common practice: 40').default(40),
  derateC: num('derated at', '°C', 1, 100, 'common practice: 60').default(60),
  derateTo: frac('share of power there', 'common practice: 0.5').default(0.5),
  ...inverterDesign,
});
