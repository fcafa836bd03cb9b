import { z } from 'zod';
import { csvFields, flag, frac, localDate, num, text, timeOfDay, timeZone } from './site-fields.ts';

const site = z.strictObject({
  name: text('name of the site'),
  note: text('note', 'what is asked, or where the data come from').default(''),
  invented: flag('invented', 'true for demo data').default(false),
  latitudeDeg: num(
    'latitude',
    '° north',
    -66,
    66,
    'south is negative; beyond the polar circles is not supported',
  ),
  longitudeDeg: num('longitude', '° east', -180, 180, 'west is negative'),
  timeZone,
  currency: text('currency', 'as it is to be printed').default('$'),
});

const period = z.strictObject({
  start: localDate.meta({ title: 'first day', unit: 'yyyy-mm-dd', description: 'by the local clock' }),
  days: num('days', 'd', 1, 366 * 30)
    .int()
    .default(365),
  stepMin: z
    .literal([1, 2, 3, 4, 5, 6, 10, 12, 15, 20, 30, 60])
    .default(5)
    .meta({ title: 'step', unit: 'min' }),
});

/** Spreads the intervals of coarse load over minutes: see minute-peaks.ts. */
const peaks = z.strictObject({
  peakedness: num(
    'highest minute over the mean of its interval',
    'times',
    1,
    20,
    'an assumption; 1.5 to 3 for a house or farm, common practice',
  ),
  pulseMin: num('length of a pulse', 'min', 1, 60).default(4),
  baseShare: frac('share that runs through').default(0.4),
  ceilingKw: num('no minute above, per column', 'kW', 0, 100_000).nullable().default(null),
  seed: text('seed').default('peaks'),
});

const weekdayNames = z.enum(['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun']);

const appliance = z.strictObject({
  name: text('name'),
  quantity: num('quantity', '', 1, 1000).int().default(1),
  watts: num('power of each while on', 'W', 0, 1_000_000),
  powerFactor: num('power factor', '0.1 to 1', 0.1, 1).default(1),
  phase: z
    .union([z.literal(1), z.literal(2), z.literal(3), z.literal('all')])
    .default('all')
    .meta({ title: 'phase' }),
  hours: z
    .array(z.strictObject({ from: timeOfDay, to: z.union([timeOfDay, z.literal('24:00')]) }))
    .default([{ from: '00:00', to: '24:00' }])
    .meta({
      title: 'hours of the day',
      description: 'several, for shifts with breaks or milking twice a day',
    }),
  weekdays: z
    .array(weekdayNames)
    .default(['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'])
    .meta({ title: 'weekdays' }),
  months: z
    .array(z.number().int().min(1).max(12))
    .default([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12])
    .meta({ title: 'months' }),
  dutyPercent: num('duty in its hours', '%', 0, 100, 'share of the time that it is on').default(100),
  dutyPerK: num(
    'rise of duty with air temperature',
    '% per K',
    -10,
    10,
    'about 20 °C; refrigeration: 1 to 2, common practice',
  ).default(0),
  cycleMin: num('length of a cycle', 'min', 1, 1440).default(20),
  startMultiple: num(
    'starting current over running',
    'times',
    1,
    12,
    'direct on line 6 to 8, star-delta 2 to 3',
  ).default(1),
});

const loadUnit = z.enum(['kW', 'W', 'kWh', 'Wh', 'kWh register', 'A']);

const load = z.strictObject({
  ...csvFields,
  unit: loadUnit.meta({
    title: 'unit',
    description: 'kWh and Wh are energy per interval, a register runs on, A is current per phase',
  }),
  powerFactor: num('power factor', '0.1 to 1', 0.1, 1, 'of columns in A').default(0.9),
  columns: z
    .record(z.string(), z.union([z.literal(1), z.literal(2), z.literal(3), z.literal('all')]))
    .meta({ title: 'columns', description: "header cell: phase 1, 2 or 3, or 'all' to share it equally" }),
  scale: num('scale', 'times', 0, 1000, "a neighbour's profile ×1.4").default(1),
  shiftMin: num(
    'shift',
    'min',
    -10_080,
    10_080,
    'later is positive; what passes the end of the period comes in at its start',
  ).default(0),
  peaks: peaks.nullable().default(null),
});

const twelve = (title: string, unit: string, least: number, most: number) =>
  z
    .array(z.number().min(least).max(most))
    .length(12)
    .meta({ title, unit, description: 'January to December' });

const weather = z.discriminatedUnion('format', [
  z
    .strictObject({
      format: z.literal('monthly'),
      globalKwh: twelve('mean daily global irradiation', 'kWh/m² a day', 0.05, 12),
      lowC: twelve('mean daily lowest temperature', '°C', -60, 50),
      highC: twelve('mean daily highest temperature', '°C', -50, 60),
      seed: text('seed', 'another seed gives other years of the same climate').default('weather'),
    })
    .meta({ title: 'years made from monthly means', description: 'where there is no weather file' }),
  z.strictObject({ format: z.literal('tmy3'), file: csvFields.file }).meta({ title: 'TMY3 weather year' }),
  z.strictObject({ format: z.literal('epw'), file: csvFields.file }).meta({ title: 'EPW weather year' }),
  z.strictObject({
    format: z.literal('csv'),
    ...csvFields,
    typicalYear: flag(
      'typical year',
      'laid on any calendar year; else the file must cover the period',
    ).default(false),
    global: text('column of global horizontal irradiance', 'W/m²'),
    direct: text('column of direct normal irradiance', 'W/m²').optional(),
    diffuse: text('column of diffuse horizontal irradiance', 'W/m²').optional(),
    air: text('column of air temperature', '°C'),
    wind: text('column of wind speed', 'm/s').optional(),
  }),
]);

const array = z.strictObject({
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
});

const battery = z.strictObject({
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

const inverter = z.strictObject({
  phases: z.literal([1, 3]).meta({ title: 'phases' }),
  ratedKva: num('rating per phase', 'kVA', 0.1, 1000),
  powerFactor: num('power factor of the load', '0.1 to 1', 0.1, 1).default(0.9),
  phaseV: num('phase voltage', 'V', 100, 300).default(230),
  idleW: num('idle draw per phase', 'W', 0, 5000).default(30),
  lossLinear: frac('loss in proportion to power', 'common practice: 0.02').default(0.02),
  lossAtRated: frac('further loss at rated power', 'share of rated power, growing as the square').default(
    0.03,
  ),
  chargerKw: num('charger per phase', 'kW', 0, 1000, 'AC side'),
  chargerEfficiency: num('charger efficiency', '0 to 1', 0.5, 1).default(0.94),
  acInputA: num(
    'AC input limit per phase',
    'A',
    0,
    10_000,
    'what the inverter may pass from the generator',
  ).default(100),
  derateKneeC: num('full power up to', '°C', 0, 80, 'common practice: 40').default(40),
  derateC: num('derated at', '°C', 1, 100, 'common practice: 60').default(60),
  derateTo: frac('share of power there', 'common practice: 0.5').default(0.5),
});

const cabinet = z.strictObject({
  airKjPerK: num('heat capacity of air and electronics', 'kJ/K', 1, 100_000),
  batteryKjPerK: num('heat capacity of the battery', 'kJ/K', 1, 1_000_000),
  airToOutsideWPerK: num('heat path air to outside', 'W/K', 0, 10_000),
  airToBatteryWPerK: num('heat path air to battery', 'W/K', 0, 10_000),
  batteryToOutsideWPerK: num('heat path battery to outside', 'W/K', 0, 10_000).default(0),
  sunM2: num('sunlit area times absorptance', 'm²', 0, 100, '0: in full shade').default(0),
  cooler: z
    .strictObject({
      ratedW: num('electric power', 'W', 1, 100_000),
      cop: num('heat moved per electricity', '', 0.5, 10).default(2.5),
      onC: num('on at', '°C', 0, 80),
      offC: num('off at', '°C', 0, 80),
    })
    .nullable()
    .default(null),
  heater: z
    .strictObject({
      ratedW: num('electric power', 'W', 1, 100_000),
      onC: num('on at', '°C', -30, 40, 'temperature of the cells'),
      offC: num('off at', '°C', -30, 40),
      minSoc: frac('blocked below', 'unless the generator is on load').default(0.3),
    })
    .nullable()
    .default(null),
});

const generator = z.strictObject({
  ratedKw: num('rating on site', 'kW', 0.1, 10_000),
  fuel: z
    .array(z.strictObject({ kW: num('output', 'kW', 0, 10_000), lPerH: num('fuel', 'L/h', 0, 5000) }))
    .min(2)
    .max(4)
    .meta({
      title: 'fuel curve',
      description: 'two points of a straight line, or up to four of the data sheet',
    }),
  startDelayS: num('request to running', 's', 0, 3600).default(20),
  warmUpMin: num('warm-up', 'min', 0, 60).default(1),
  coolDownMin: num('cool-down', 'min', 0, 60).default(3),
  minLoad: frac('minimum load', 'arrays may not push it below; hours below 30 % are counted anyway').default(
    0.3,
  ),
  blackStart: flag('black start', 'own starting battery and controller: starts with the site dead').default(
    true,
  ),
});

const tank = z.strictObject({
  capacityL: num('capacity', 'L', 1, 1_000_000),
  initialL: num('at the start', 'L', 0, 1_000_000),
  reserveL: num('unusable reserve', 'L', 0, 100_000).default(0),
  orderAtL: num('order at or below', 'L', 0, 1_000_000).nullable().default(null),
  leadDays: num('order to delivery', 'd', 0, 365).default(0),
  fillDates: z
    .array(localDate)
    .default([])
    .meta({ title: 'fixed deliveries', description: 'filled up at 08:00 of these days' }),
});

const hours = z.strictObject({ from: timeOfDay, to: timeOfDay });

const control = z.strictObject({
  shortfall: z
    .enum(['trip', 'partial'])
    .default('trip')
    .meta({ title: 'load above what can be carried', description: 'switches off, or is served in part' }),
  tripAllPhases: flag('an overload trips all phases').default(false),
  restartMin: num('restart after a trip', 'min', 1, 1440).default(1),
  deadVisitH: num('a person comes to a dead site after', 'h', 0, 8760).default(24),
  charge: z
    .strictObject({
      startSoc: frac('start at'),
      delayMin: num('for', 'min', 0, 1440).default(1),
      stopSoc: frac('stop at'),
      tailKw: num(
        'or when charging falls below',
        'kW',
        0,
        1000,
        'limited by the battery; 0: not used',
      ).default(0),
      tailMin: num('for', 'min', 0, 1440).default(30),
      absorptionMaxMin: num('or this long above the start of the taper', 'min', 0, 10_080).default(240),
    })
    .nullable()
    .default(null),
  peak: z
    .strictObject({
      startKw: num('start above, per phase', 'kW', 0, 10_000).nullable().default(null),
      delayS: num('for', 's', 0, 36_000).default(60),
      stopKw: num('stop below, per phase', 'kW', 0, 10_000),
      holdMin: num('for', 'min', 0, 1440).default(10),
      charges: flag('also charges').default(true),
    })
    .nullable()
    .default(null),
  continuous: flag('runs always').default(false),
  minRunMin: num('minimum run', 'min', 0, 10_080).default(30),
  maxRunH: num('longest run', 'h', 0.1, 8760).default(24),
  restMin: num('least rest after a stop', 'min', 0, 1440).default(5),
  restrictedHours: z
    .array(hours)
    .default([])
    .meta({ title: 'restricted hours', description: 'no start by threshold' }),
  restrictedEndsRun: flag('a run that meets restricted hours ends').default(false),
  urgentSoc: frac(
    'urgent state of charge',
    'restricted hours and frost no longer hold the generator back',
  ).optional(),
  peakAssist: flag('battery helps the generator above its rating').default(true),
  acArrayOnLoad: z.enum(['off', 'held']).default('off').meta({
    title: 'AC-coupled array with the generator on load',
    description: 'held back needs a control link',
  }),
  acReconnectMin: num('AC-coupled array waits after a transfer', 'min', 0, 60).default(5),
  dcToAcOnLoad: flag('DC array may feed the board with the generator on load').default(false),
  nightHours: hours.default({ from: '22:00', to: '07:00' }),
});

const money = z.strictObject({
  years: num('years of the study', 'a', 1, 50).int().default(20),
  discountRate: num('real discount rate', 'a year', 0, 0.5).default(0.05),
  capital: num('capital', 'money', 0, 1e9, 'of the site as filed').default(0),
  fuelPerL: num('fuel price', 'money/L', 0, 100),
  fuelEscalation: num('real rise of the fuel price', 'a year', -0.2, 0.5).default(0),
  serviceEveryH: num('service every', 'run h', 1, 10_000, 'common practice: 250').default(250),
  serviceCost: num('a service visit', 'money', 0, 1e6).default(0),
  overhaulEveryH: num('overhaul every', 'run h', 100, 100_000, 'common practice: 15 000 to 25 000').default(
    15_000,
  ),
  overhaulCost: num('an overhaul', 'money', 0, 1e7).default(0),
  batteryYears: num('battery life', 'a', 1, 50).default(12),
  batteryPerModule: num('a battery module', 'money', 0, 1e6, 'at replacement').default(0),
});

const alternative = z.strictObject({
  name: text('name of the alternative'),
  note: text('note').default(''),
  capital: num('capital difference to the site as filed', 'money', -1e9, 1e9).default(0),
  changes: z
    .record(z.string(), z.unknown())
    .default({})
    .meta({ title: 'changes', description: "path: value, such as 'battery.modules: 24'" }),
});

/** The whole site file. */
export const siteSchema = z.strictObject({
  site,
  period,
  load: z.array(load).default([]),
  appliances: z.array(appliance).default([]),
  weather: weather.nullable().default(null),
  arrays: z.array(array).default([]),
  battery: battery.nullable().default(null),
  inverter,
  cabinet: cabinet.nullable().default(null),
  roomC: num('temperature without a cabinet', '°C', -40, 60).default(20),
  generator: generator.nullable().default(null),
  tank: tank.nullable().default(null),
  control: control.prefault({}),
  money,
  alternatives: z.array(alternative).default([]),
});

export type Site = z.infer<typeof siteSchema>;
export type Appliance = Site['appliances'][number];
export type LoadFile = Site['load'][number];
export type WeatherFile = NonNullable<Site['weather']>;
export type ArrayPart = Site['arrays'][number];

/** The JSON Schema of the site file, for editors. */
export function siteJsonSchema(): unknown {
  return z.toJSONSchema(siteSchema, { io: 'input' });
}
