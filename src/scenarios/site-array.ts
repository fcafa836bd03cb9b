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

/** Keys of an array that say how sky, snow and dirt act on it; all optional. */
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
};
