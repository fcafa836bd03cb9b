import { z } from 'zod';
import { calendar } from './site-calendar.ts';
import { flag, frac, hoursOfDays, num, timeOfDay } from './site-fields.ts';

const hours = z.strictObject({ from: timeOfDay, to: timeOfDay });

export const control = z.strictObject({
  shortfall: z
    .enum(['trip', 'partial'])
    .default('trip')
    .meta({ title: 'load above what can be carried', description: 'switches off, or is served in part' }),
  tripAllPhases: flag('an overload trips all phases').default(false),
  restartMin: num('restart after a trip', 'min', 1, 1440).default(1),
  deadVisitH: num(
    'a called person comes after',
    'h',
    0,
    8760,
    'in attended hours: to a dead site, after a lock-out, to bleed an engine',
  ).default(24),
  lock: z
    .strictObject({
      trips: num('trips in a row', '', 1, 100).int(),
      withinMin: num('each within', 'min', 1, 1440).default(60),
    })
    .nullable()
    .default(null)
    .meta({ title: 'inverters lock out', description: 'until a person comes; left out: never' }),
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
  runHours: z.array(hoursOfDays).default([]).meta({
    title: 'daily run window',
    description: 'with continuous: only in these hours; none given: always',
  }),
  hand: z
    .strictObject({
      startSoc: frac('started by hand at or below', 'or when the site is cut off'),
      responseMin: num('response', 'min', 0, 10_080, 'from then to the start, in attended hours').default(30),
      stopSoc: frac('stop at'),
      absorptionMaxMin: num('or this long above the start of the taper', 'min', 0, 10_080).default(240),
    })
    .nullable()
    .default(null)
    .meta({ title: 'start by hand' }),
  full: z
    .strictObject({
      everyDays: num('every', 'd', 0.5, 366, 'after the battery was last full'),
      stopSoc: frac('full at').default(0.99),
      absorptionMaxMin: num('or this long above the start of the taper', 'min', 1, 10_080).default(240),
    })
    .nullable()
    .default(null)
    .meta({ title: 'periodic full charge', description: 'balances cells and sets the meter right' }),
  exercise: z
    .strictObject({
      everyDays: num('every', 'd', 1, 366).int(),
      at: timeOfDay,
      runMin: num('on load for', 'min', 1, 1440).default(30),
      unlessWithinDays: num('not if it ran within', 'd', 0, 366).default(0),
    })
    .nullable()
    .default(null)
    .meta({ title: 'exercise run' }),
  shed: z
    .strictObject({
      belowSoc: frac('sheddable load drops at'),
      aboveSoc: frac('and comes back at'),
      overloadMin: num('dropped after an overload for', 'min', 1, 1440).default(10),
    })
    .nullable()
    .default(null)
    .meta({ title: 'shedding', description: 'of loads of the class sheddable' }),
  chargeTargetKw: num(
    'output that charging aims at',
    'kW',
    0,
    10_000,
    'of the generator; left out: as much as chargers and generator give',
  )
    .nullable()
    .default(null),
  calendar,
  minRunMin: num('minimum run', 'min', 0, 10_080).default(30),
  maxRunH: num(
    'longest run',
    'h',
    0.1,
    8760,
    'default: 24 h; without end for a generator that runs always',
  ).optional(),
  restMin: num('least rest after a stop', 'min', 0, 1440).default(5),
  restrictedHours: z
    .array(hoursOfDays)
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
