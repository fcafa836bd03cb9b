import { z } from 'zod';
import { flag, frac, localDate, num } from './site-fields.ts';

export const generator = z.strictObject({
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
