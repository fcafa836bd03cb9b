import { z } from 'zod';
import { momentSpan, num, onePhase } from './site-fields.ts';

/** What is out of service when: to see what a fault would do, or what one did. */
export const faults = z.strictObject({
  generator: z.array(momentSpan).default([]).meta({ title: 'generator out of order' }),
  bypass: z.array(momentSpan).default([]).meta({
    title: 'inverters out of service',
    description: 'the board runs from the generator alone, through the bypass switch',
  }),
  units: z
    .array(
      z.strictObject({
        ...momentSpan.shape,
        phase: onePhase,
        units: num('units out of service', '', 1, 100, 'of inverter.unitsPerPhase').int().default(1),
      }),
    )
    .default([])
    .meta({ title: 'inverter units out of service' }),
});
