import { z } from 'zod';
import { num } from './site-fields.ts';

/** More about an array: its strings and what they are connected to. */
export const arrayStrings = {
  strings: z
    .strictObject({
      modulesInSeries: num('modules in series', '', 1, 100).int(),
      strings: num('strings in parallel', '', 1, 10_000).int(),
      vocV: num('open-circuit voltage of a module', 'V', 1, 300, 'at 25 °C'),
      vmpV: num('voltage of a module at its highest power', 'V', 1, 300, 'at 25 °C'),
      iscA: num('short-circuit current of a module', 'A', 0.1, 50),
      impA: num('current of a module at its highest power', 'A', 0.1, 50),
      vocPerK: num(
        'temperature coefficient of the open-circuit voltage',
        '1/K',
        -0.01,
        0,
        'common practice: -0.0028',
      ).default(-0.0028),
      vmpPerK: num(
        'temperature coefficient of the voltage at highest power',
        '1/K',
        -0.01,
        0,
        'common practice: -0.0037',
      ).default(-0.0037),
    })
    .optional()
    .meta({ title: 'strings', description: 'module data at 1000 W/m² and 25 °C' }),
  controller: z
    .strictObject({
      maxV: num('highest input voltage', 'V', 1, 1500),
      minV: num('lowest input voltage at which it finds the highest power', 'V', 1, 1500),
      maxInputA: num('highest input current', 'A', 0.1, 100_000, 'all inputs together').optional(),
      ratedKw: num('rated array power', 'kW', 0.01, 10_000, 'all inputs together').optional(),
      trackMaxV: num(
        'highest input voltage at which it finds the highest power',
        'V',
        1,
        1500,
        'colder strings are held there; default: maxV',
      ).optional(),
    })
    .optional()
    .meta({ title: 'controller', description: 'input of the charge controllers, or of the array inverter' }),
};
