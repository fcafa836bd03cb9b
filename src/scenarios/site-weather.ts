import { z } from 'zod';
import { csvFields, flag, num, text } from './site-fields.ts';

const twelve = (title: string, unit: string, least: number, most: number) =>
  z
    .array(z.number().min(least).max(most))
    .length(12)
    .meta({ title, unit, description: 'January to December' });

export const weather = z.discriminatedUnion('format', [
  z
    .strictObject({
      format: z.literal('monthly'),
      globalKwh: twelve('mean daily global irradiation', 'kWh/m² a day', 0.05, 12),
      lowC: twelve('mean daily lowest temperature', '°C', -60, 50),
      highC: twelve('mean daily highest temperature', '°C', -50, 60),
      seed: text('seed', 'another seed gives other years of the same climate').default('weather'),
    })
    .meta({ title: 'years made from monthly means', description: 'where there is no weather file' }),
  z.strictObject({ format: z.literal('tmy3'), file: csvFields.file }).meta({ title: 'TMY3 weather year' }),
  z
    .strictObject({
      format: z.literal('epw'),
      file: csvFields.file,
      precipitation: flag(
        'read snow and rain',
        'the snow depth where it ever rises, else the rain with the cold; for snow on arrays',
      ).default(false),
    })
    .meta({ title: 'EPW weather year' }),
  z.strictObject({ format: z.literal('pvgis'), file: csvFields.file }).meta({
    title: 'PVGIS file',
    description: 'a typical year, or the hours of years that cover the period on the plane of the arrays',
  }),
  z.strictObject({
    format: z.literal('csv'),
    ...csvFields,
    typicalYear: flag(
      'typical year',
      'laid on any calendar year; else the file must cover the period',
    ).default(false),
    global: text(
      'column of global horizontal irradiance',
      'W/m²; may be missing where every array lies in planeOfArray',
    ).optional(),
    direct: text('column of direct normal irradiance', 'W/m²').optional(),
    diffuse: text('column of diffuse horizontal irradiance', 'W/m²').optional(),
    air: text('column of air temperature', '°C'),
    wind: text('column of wind speed', 'm/s').optional(),
    precipitation: text('column of precipitation', 'mm in each interval, as water').optional(),
    snowfall: text('column of fresh snow', 'cm in each interval').optional(),
    planeOfArray: z
      .strictObject({
        column: text('column of irradiance on the plane', 'W/m²'),
        tiltDeg: num('tilt of the plane', '°', 0, 90),
        azimuthDeg: num('azimuth of the plane', '° from north, clockwise', 0, 360),
      })
      .optional()
      .meta({
        title: 'irradiance measured on a plane',
        description: 'taken as it is for the arrays that lie in this plane',
      }),
  }),
]);
