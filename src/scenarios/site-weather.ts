import { z } from 'zod';
import { csvFields, flag, text } from './site-fields.ts';

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
  z.strictObject({ format: z.literal('epw'), file: csvFields.file }).meta({ title: 'EPW weather year' }),
  z.strictObject({
    format: z.literal('csv'),
    ...csvFields,
    typicalYear: flag(
      'typical year',
      'laid on any calendar year; else the file must cover the period',
    ).default(false),
    global: text('column of global horizontal irradiance', 'W/m²'),
    direct: text('column of direct normal irradiance', 'W/m²').optional(),
    diffuse: text('column of diffuse horizontal irradiance', 'W/m²').optional(),
    air: text('column of air temperature', '°C'),
    wind: text('column of wind speed', 'm/s').optional(),
  }),
]);
