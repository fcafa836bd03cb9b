import { z } from 'zod';
import { onPhase, text } from './site-fields.ts';
import { load } from './site-loads.ts';

/** Another source beside arrays and generator, as a series of its power: a stream turbine, wind, a neighbour's line. */
export const source = z
  .strictObject({
    name: text('name of the source'),
    coupling: z.enum(['dc', 'ac']).meta({
      title: 'coupling',
      description: 'to the battery side, or to the board like an array inverter',
    }),
    phase: onPhase.default('all').meta({ title: 'phase', description: 'that an AC-coupled source feeds' }),
    ...load.omit({ phase: true, columns: true, peaks: true }).shape,
    columns: z.array(z.string()).optional().meta({
      title: 'columns',
      description: 'needed for a CSV file: header cells whose power is added up',
    }),
  })
  .meta({
    title: 'another source',
    description: 'what it could give, behind its own converter; dispatched like an array',
  });
