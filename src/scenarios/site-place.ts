import { z } from 'zod';
import { flag, localDate, num, text, timeZone } from './site-fields.ts';

export const site = z.strictObject({
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
  locale: text(
    'locale',
    "of the owner's report: language and way of writing numbers, such as 'de-AT'; default: en-GB",
  )
    .regex(/^[a-z]{2,3}(-[A-Za-z0-9]{2,8})*$/, "a locale such as 'en-GB' or 'de-AT'")
    .optional(),
  currency: text('currency', 'as it is to be printed').default('$'),
});

export const period = z.strictObject({
  start: localDate.meta({ title: 'first day', unit: 'yyyy-mm-dd', description: 'by the local clock' }),
  days: num('days', 'd', 1, 366 * 30)
    .int()
    .default(365),
  stepMin: z
    .literal([1, 2, 3, 4, 5, 6, 10, 12, 15, 20, 30, 60])
    .default(5)
    .meta({ title: 'step', unit: 'min' }),
});
