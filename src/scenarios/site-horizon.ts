import { z } from 'zod';
import { num, text } from './site-fields.ts';

/** How the years after the first differ from it, where they are simulated one after the other. */
export const horizon = z
  .strictObject({
    loadGrowth: num(
      'growth of the load',
      'a year',
      -0.2,
      0.2,
      '0.02: every year 2 % above the year before, the first as filed',
    ).default(0),
    weatherYears: z
      .union([z.literal('repeat'), z.array(text('seed or file')).min(1).max(50)])
      .default('repeat')
      .meta({
        title: 'weather of the years',
        description:
          "'repeat': the same year again; or a list that is taken in turn, from the first again after the last: seeds of weather made from monthly means, else files written like the weather file",
      }),
  })
  .meta({ title: 'horizon', description: 'the years of the study one after the other' });
