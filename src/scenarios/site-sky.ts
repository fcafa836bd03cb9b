import { z } from 'zod';
import { horizon } from './site-array.ts';
import { localDate, num } from './site-fields.ts';

/** Snow on the arrays; the model is that of src/sim/sky/snow-cover.ts. */
const snow = z
  .strictObject({
    falls: z
      .array(
        z.strictObject({ date: localDate, cm: num('fresh snow', 'cm', 0.1, 300, 'spread over the day') }),
      )
      .default([])
      .meta({
        title: 'falls of snow',
        description: 'where given they alone count; else the weather must have snow or precipitation',
      }),
    allSnowC: num('all precipitation is snow up to', '°C', -10, 10, 'common practice: 0').default(0),
    allRainC: num('all precipitation is rain from', '°C', -10, 10, 'common practice: 2').default(2),
    coverCm: num('fresh snow in a day that covers an array', 'cm', 0.1, 50, 'from memory: 1').default(1),
    slideWPerM2K: num(
      'slides where the air is warmer than −irradiance over this',
      'W/(m²·K)',
      1,
      1000,
      'from memory: 80',
    ).default(80),
    slidePerH: num(
      'share of the slope that slides off in an hour',
      '1/h',
      0,
      10,
      'times the sine of the tilt; from memory: 0.197',
    ).default(0.197),
    meltMmPerKDay: num(
      'melt on open ground',
      'mm of water per K and day',
      0,
      20,
      'common practice: 4; when the ground is bare so are the arrays',
    ).default(4),
  })
  .meta({
    title: 'snow',
    description: 'snow on the arrays; {} where the weather file has snow or precipitation',
  });

/** How light reaches the arrays of a site. */
export const sky = z.strictObject({
  transposition: z.enum(['isotropic', 'hayDavies', 'perez']).default('hayDavies').meta({
    title: 'brightness of the sky',
    description: 'even, or brighter around the sun (Hay and Davies), or at the horizon too (Perez)',
  }),
  horizon: horizon.default([]),
  snow: snow.nullable().default(null),
});
