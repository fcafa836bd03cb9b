import { z } from 'zod';
import { csvFields, text } from './site-fields.ts';

const { file, timeColumns, stamp, timeZone, dateOrder, decimalComma } = csvFields;

const positive = z.enum(['charging', 'discharging']).optional().meta({
  title: 'positive while',
  description: 'the battery is charging or discharging; left out: found from the data, and told',
});

/** Means: W and kW; energy of the interval: Wh and kWh; a running total, which may begin anew. */
const powerUnit = z.enum(['W', 'kW', 'Wh', 'kWh', 'kWh register']).meta({ title: 'unit' });

const unitOf = <const T extends readonly [string, ...string[]]>(units: T) =>
  z.enum(units).meta({ title: 'unit' });

/** One column: what it measures and in which unit. */
const column = z.discriminatedUnion('is', [
  z.strictObject({ is: z.literal('charge'), unit: unitOf(['%', '0 to 1']) }),
  z.strictObject({ is: z.literal('load'), unit: powerUnit }),
  z.strictObject({ is: z.literal('load phase 1'), unit: powerUnit }),
  z.strictObject({ is: z.literal('load phase 2'), unit: powerUnit }),
  z.strictObject({ is: z.literal('load phase 3'), unit: powerUnit }),
  z.strictObject({
    is: z.literal('array'),
    name: text('name', 'of the array in the site file; left out: all arrays together').optional(),
    unit: powerUnit,
  }),
  z.strictObject({ is: z.literal('battery power'), unit: unitOf(['W', 'kW', 'Wh', 'kWh']), positive }),
  z.strictObject({ is: z.literal('battery current'), unit: unitOf(['A']), positive }),
  z.strictObject({ is: z.literal('battery voltage'), unit: unitOf(['V']) }),
  z.strictObject({ is: z.literal('generator power'), unit: powerUnit }),
  z.strictObject({ is: z.literal('generator running'), unit: unitOf(['0/1', 'min', 'h register']) }),
  z.strictObject({ is: z.literal('fuel level'), unit: unitOf(['L', '%']) }),
  z.strictObject({ is: z.literal('cabinet temperature'), unit: unitOf(['C', 'F', 'K']) }),
  z.strictObject({ is: z.literal('cell temperature'), unit: unitOf(['C', 'F', 'K']) }),
  z.strictObject({ is: z.literal('outside temperature'), unit: unitOf(['C', 'F', 'K']) }),
  z.strictObject({ is: z.literal('irradiance'), unit: unitOf(['W/m2']) }),
]);

/** The site's own log, as its recorder writes it. */
export const log = z
  .strictObject({
    ...{ file, timeColumns, stamp, timeZone, dateOrder, decimalComma },
    columns: z.record(z.string(), column).meta({
      title: 'columns',
      description: 'header cell, and what stands below it: { is: charge, unit: "%" }',
    }),
  })
  .meta({
    title: "the site's own log",
    description: 'a CSV file, for a return visit; no part of the design',
  });
