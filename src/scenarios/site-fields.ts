import { z } from 'zod';

/** A number of the site file with its range, title, unit and line of help. */
export function num(title: string, unit: string, min: number, max: number, description = '') {
  return z.number().min(min).max(max).meta({ title, unit, description });
}

/** A share from 0 to 1: 30 where 0.30 is meant is refused with that hint. */
export function frac(title: string, description = '') {
  return num(title, '0 to 1', 0, 1, description);
}

export function text(title: string, description = '') {
  return z.string().meta({ title, description });
}

export function flag(title: string, description = '') {
  return z.boolean().meta({ title, description });
}

/** Phase 1, 2 or 3, or all of them in equal parts. */
export const onPhase = z.union([z.literal(1), z.literal(2), z.literal(3), z.literal('all')]);

/** A time of day such as 21:30. */
export const timeOfDay = z
  .string()
  .regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'a time of day such as 21:30')
  .meta({ title: 'time of day', unit: 'hh:mm' });

export const WEEKDAYS = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'] as const;

export const weekdaysOfWeek = z
  .array(z.enum(WEEKDAYS))
  .default([...WEEKDAYS])
  .meta({ title: 'weekdays' });

export const monthsOfYear = z
  .array(z.number().int().min(1).max(12))
  .default([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12])
  .meta({ title: 'months' });

/** Hours of the day on some weekdays; a span past midnight belongs to the day on which it begins. */
export const hoursOfDays = z.strictObject({ from: timeOfDay, to: timeOfDay, weekdays: weekdaysOfWeek });

/** One of the phases. */
export const onePhase = z.literal([1, 2, 3]).meta({ title: 'phase' });

/** A local date such as 2025-07-01, one that the calendar has. */
export const localDate = z
  .string()
  .regex(/^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/, 'a date such as 2025-07-01')
  .refine(isDay, 'a day that the month has')
  .meta({ title: 'date', unit: 'yyyy-mm-dd' });

/** False for 2025-02-30: the calendar would make it 2 March. */
function isDay(date: string): boolean {
  const day = new Date(`${date}T00:00Z`);
  return Number.isNaN(day.getTime()) || day.toISOString().startsWith(date);
}

/** A local date, or date and time: 2025-07-01 or 2025-07-01T14:30. */
const moment = z
  .string()
  .regex(
    /^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])(T([01]\d|2[0-3]):[0-5]\d)?$/,
    'a date such as 2025-07-01, or a date and time such as 2025-07-01T14:30',
  )
  .refine((text) => isDay(text.slice(0, 10)), 'a day that the month has')
  .meta({ title: 'moment', unit: 'yyyy-mm-dd or yyyy-mm-ddThh:mm' });

/** From one moment to another, which is not included. */
export const momentSpan = z.strictObject({ from: moment, to: moment });

export const timeZone = text(
  'time zone',
  "the clock of the site or file: 'Australia/Sydney', or an offset such as '+10:00'",
);

/** How a CSV file is written. */
export const csvFields = {
  file: text('file', 'path beside the site file'),
  timeColumns: z
    .array(z.string())
    .optional()
    .meta({ title: 'columns of date and time', description: 'default: the first' }),
  stamp: z.enum(['start', 'end']).meta({
    title: 'stamp',
    description: 'whether a row is stamped at the start or the end of its interval',
  }),
  timeZone: timeZone.optional(),
  dateOrder: z
    .enum(['ymd', 'dmy', 'mdy'])
    .optional()
    .meta({ title: 'date order', description: 'needed only where the file does not settle it' }),
  decimalComma: flag('decimal comma').default(false),
  maxGapMin: num('longest gap that is filled', 'min', 0, 10_080, 'longer gaps are an error').default(180),
};
