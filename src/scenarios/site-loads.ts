import { z } from 'zod';
import {
  csvFields,
  frac,
  monthsOfYear,
  num,
  onPhase,
  text,
  timeOfDay,
  weekdaysOfWeek,
} from './site-fields.ts';

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

/** What happens to a load when charge is low: see control.shed. */
const loadClass = z.enum(['essential', 'sheddable']).default('essential').meta({
  title: 'class',
  description: 'sheddable: dropped at a low state of charge, where control.shed says so',
});

export const appliance = z.strictObject({
  name: text('name'),
  quantity: num('quantity', '', 1, 1000).int().default(1),
  watts: num('power of each while on', 'W', 0, 1_000_000),
  powerFactor: num('power factor', '0.1 to 1', 0.1, 1).default(1),
  phase: onPhase.default('all').meta({ title: 'phase' }),
  class: loadClass,
  hours: z
    .array(z.strictObject({ from: timeOfDay, to: z.union([timeOfDay, z.literal('24:00')]) }))
    .default([{ from: '00:00', to: '24:00' }])
    .meta({
      title: 'hours of the day',
      description: 'several, for shifts with breaks or milking twice a day',
    }),
  weekdays: weekdaysOfWeek,
  months: monthsOfYear,
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

export const load = z.strictObject({
  ...csvFields,
  stamp: csvFields.stamp.optional(),
  format: z
    .enum(['csv', 'nem12', 'greenbutton'])
    .optional()
    .meta({ title: 'format', description: 'default: what the content looks like' }),
  unit: loadUnit.optional().meta({
    title: 'unit',
    description:
      'needed for a CSV file; kWh and Wh are energy per interval, a register runs on, A is current per phase',
  }),
  powerFactor: num('power factor', '0.1 to 1', 0.1, 1, 'of columns in A').default(0.9),
  columns: z.record(z.string(), onPhase).optional().meta({
    title: 'columns',
    description: "needed for a CSV file: header cell, and phase 1, 2 or 3, or 'all' to share it equally",
  }),
  phase: onPhase.default('all').meta({ title: 'phase', description: 'of a meter file' }),
  meter: text('meter', 'the one to read, where a file of interval meter data holds several').optional(),
  scale: num('scale', 'times', 0, 1000, "a neighbour's profile ×1.4").default(1),
  shiftMin: num(
    'shift',
    'min',
    -10_080,
    10_080,
    'later is positive; what passes the end of the period comes in at its start',
  ).default(0),
  peaks: peaks.nullable().default(null),
  class: loadClass,
});

/** A load that may wait within a day: pumping, water heating. It is no part of the load files. */
export const shiftable = z.strictObject({
  name: text('name'),
  watts: num('power while on', 'W', 1, 1_000_000),
  kwhPerDay: num('energy a day', 'kWh', 0, 10_000),
  deadline: timeOfDay.meta({
    title: 'deadline',
    description: 'it runs on array surplus, and what is missing is made up just before this time of day',
  }),
  phase: onPhase.default('all').meta({ title: 'phase', description: 'all: a third on each' }),
});
