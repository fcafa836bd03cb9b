import { z } from 'zod';
import { num, text } from './site-fields.ts';

export const money = z.strictObject({
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
  unservedPerKwh: num(
    'load unserved',
    'money/kWh',
    0,
    100_000,
    'what it spoils or stops; not what is shed',
  ).default(0),
  visitCost: num('a call-out', 'money', 0, 1e6, 'of a person who is called, such as travel').default(0),
  batteryYears: num('battery life', 'a', 1, 50, "left out: worked out from the battery's wear, else 12")
    .nullable()
    .default(null),
  batteryPerModule: num('a battery module', 'money', 0, 1e6, 'at replacement').default(0),
});

export const alternative = z.strictObject({
  name: text('name of the alternative'),
  note: text('note').default(''),
  capital: num('capital difference to the site as filed', 'money', -1e9, 1e9).default(0),
  changes: z
    .record(z.string(), z.unknown())
    .default({})
    .meta({ title: 'changes', description: "path: value, such as 'battery.modules: 24'" }),
});
