import { z } from 'zod';
import { generatorDesign } from './site-design.ts';
import { flag, frac, localDate, num, text } from './site-fields.ts';

/** Where the engine works, for the rule of ISO 3046-1; without it the rating is taken as that on site. */
const siteAir = z
  .strictObject({
    altitudeM: num('altitude', 'm', -400, 6000),
    airC: num('hottest intake air', '°C', -20, 60, 'on a design day, where the engine takes its air'),
    engine: z.enum(['natural', 'naturalAirLimited', 'turbo', 'turboCooled']).meta({
      title: 'engine',
      description: 'naturally aspirated, or turbocharged without or with charge cooling',
    }),
    humidity: frac('relative humidity', 'matters for naturalAirLimited').default(0.3),
    coolantC: num('charge coolant', '°C', -20, 100, 'matters for turboCooled').default(25),
    mechanicalEfficiency: num('mechanical efficiency', '0 to 1', 0.5, 1, 'of the engine').default(0.8),
  })
  .meta({
    title: 'site derating',
    description:
      'the rating is that of the catalogue, and is cut to what altitude and heat leave (ISO 3046-1)',
  });

/** What every generating set has. */
const setFields = {
  ratedKw: num('rating', 'kW', 0.1, 10_000, 'on site; that of the catalogue where siteDerating is given'),
  siteDerating: siteAir.nullable().default(null),
  phase: z
    .union([z.literal(1), z.literal(2), z.literal(3)])
    .nullable()
    .default(null)
    .meta({
      title: 'phase of a single-phase set',
      description: 'left out: as many phases as the site',
    }),
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
};

export const generator = z.strictObject({
  ...setFields,
  startFailures: z
    .strictObject({
      chance: frac('chance that an attempt fails'),
      retries: num('further attempts', '', 0, 20, 'then it locks out until a person comes').int().default(2),
      pauseS: num('pause before each', 's', 0, 3600).default(30),
      seed: text('seed', 'the same seed gives the same failures').default('starts'),
    })
    .nullable()
    .default(null)
    .meta({ title: 'failing starts', description: 'drawn with a seed; left out: every start succeeds' }),
  mustBleed: flag('must be bled by a person after running dry').default(false),
  standingW: num('standing draw', 'W', 0, 10_000, 'AC: its battery charger and controller').default(0),
  blockHeater: z
    .strictObject({
      ratedW: num('electric power', 'W', 1, 20_000),
      belowC: num('on below', '°C', -40, 40, 'outside air'),
    })
    .nullable()
    .default(null)
    .meta({ title: 'block heater', description: 'on while the engine stands' }),
  ...generatorDesign,
});

/** A portable or tractor-driven set; its fuel is bought apart and does not run out. */
export const secondGenerator = z.strictObject({
  ...setFields,
  connectH: num('connected after', 'h', 0, 8760, 'the first set could not run; in attended hours').default(
    12,
  ),
});

export const tank = z.strictObject({
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
