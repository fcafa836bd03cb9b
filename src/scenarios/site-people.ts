import { z } from 'zod';
import { hoursOfDays, momentSpan } from './site-fields.ts';

/** Who is there to start a generator by hand, or to put right what has locked out. */
export const people = z.strictObject({
  attended: z
    .array(hoursOfDays)
    .default([])
    .meta({ title: 'attended hours', description: 'none given: somebody is always there' }),
  away: z.array(momentSpan).default([]).meta({ title: 'away', description: 'nobody is there' }),
});
