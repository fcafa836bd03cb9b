import { z } from 'zod';
import { num } from './site-fields.ts';

/** Prices of the site's own, by which sizes differ in capital; what is left out comes from a catalogue. */
export const prices = z
  .strictObject({
    perModule: num('a battery module', 'money', 0, 1e6, 'with its part of a cabinet').optional(),
    perKwp: num('a kWp of array', 'money/kWp', 0, 1e6, 'with controller or array inverter').optional(),
    perInverterKva: num('a kVA of inverter', 'money/kVA', 0, 1e6).optional(),
    perGeneratorKw: num('a kW of generator', 'money/kW', 0, 1e6).optional(),
  })
  .meta({ title: 'prices', description: 'by which sizes differ, where they are searched' });
