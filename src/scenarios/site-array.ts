import { z } from 'zod';
import { num } from './site-fields.ts';

/** What stands around a place. */
export const horizon = z
  .array(
    z.strictObject({
      azimuthDeg: num('direction', '° from north, clockwise', 0, 360),
      elevationDeg: num(
        'height of the horizon there',
        '°',
        0,
        89,
        'seen from the arrays; straight between points',
      ),
    }),
  )
  .max(400)
  .meta({ title: 'horizon', description: 'hills, trees and houses, in any order; none: level all round' });

/** How the modules are wired; from their data sheet. */
const strings = z
  .strictObject({
    modulesInSeries: num('modules in series', '', 1, 1000).int(),
    strings: num('strings in parallel', '', 1, 10_000, 'of all the converters of this array').int(),
    vocV: num('open-circuit voltage of a module', 'V', 1, 1000, 'at 1000 W/m² and 25 °C, as all of these'),
    vmpV: num('voltage of a module at its largest power', 'V', 1, 1000),
    iscA: num('short-circuit current', 'A', 0.1, 100),
    impA: num('current at largest power', 'A', 0.1, 100),
    vocPerK: num('change of the open-circuit voltage', '1/K', -0.01, 0, 'common practice: -0.0028').default(
      -0.0028,
    ),
    vmpPerK: num(
      'change of the voltage at largest power',
      '1/K',
      -0.01,
      0,
      'common practice: -0.0035',
    ).default(-0.0035),
  })
  .meta({ title: 'strings', description: 'with them the voltage and current limits of the converter act' });

/** The input of a charge controller or array inverter, where it sets limits. */
const controller = z
  .strictObject({
    minV: num('least voltage at its input', 'V', 0, 2000, 'below it the strings give nothing').default(0),
    maxV: num('highest voltage at its input', 'V', 1, 2000, 'that open strings may have').optional(),
    trackMaxV: num(
      'highest voltage at which it follows the largest power',
      'V',
      1,
      2000,
      'colder strings are held there; default: maxV',
    ).optional(),
    maxInputA: num('input current', 'A', 0, 10_000, 'all together').optional(),
    ratedKw: num('input power', 'kW', 0, 10_000, 'all together').optional(),
  })
  .meta({ title: 'input of the controllers or array inverters' });

/** Keys of an array that say how sky, snow, dirt and converter act on it; all optional. */
export const arraySky = {
  soilingByMonth: z
    .array(num('share lost to soiling', '0 to 1', 0, 1))
    .length(12)
    .optional()
    .meta({ title: 'lost to soiling by month', description: 'January to December, in place of soiling' }),
  cellTemperature: z.enum(['noct', 'faiman']).default('noct').meta({
    title: 'cell temperature',
    description: 'noct: by noctC (Ross); faiman: cooled by the wind, which the weather must have',
  }),
  faimanU0: num('heat loss in still air', 'W/(m²·K)', 5, 100, 'faiman; common practice: 25').default(25),
  faimanU1: num(
    'rise of the heat loss with wind',
    'W·s/(m³·K)',
    0,
    30,
    'faiman; common practice: 6.84',
  ).default(6.84),
  horizon: horizon.optional(),
  rowsUpSlope: num(
    'rows of modules up the slope',
    '',
    0,
    100,
    'each lost whole while snow lies on any of it; 0: in proportion to the snow',
  )
    .int()
    .default(0),
  strings: strings.nullable().default(null),
  controller: controller.nullable().default(null),
};
