import { z } from 'zod';
import { frac, num, text } from './site-fields.ts';

/** Ranges in which values of the site may lie, for `darkweek sensitivity`. */
export const uncertain = z
  .array(
    z.strictObject({
      path: text(
        'value',
        "its path, such as 'money.fuelPerL'; or 'load', 'arrays', 'generator.fuel': all of it, times",
      ),
      low: z.number().meta({ title: 'lowest', description: 'in the unit of the value' }),
      high: z.number().meta({ title: 'highest', description: 'in the unit of the value' }),
      name: text('name in the report').optional(),
    }),
  )
  .nullable()
  .default(null)
  .meta({
    title: 'what is uncertain',
    description: 'left out: fuel, load, sun, prices, wear and discount rate over usual ranges',
  });

const factors = (title: string, least: number, most: number) =>
  z
    .tuple([z.number().min(least).max(most), z.number().min(least).max(most)])
    .meta({ title, unit: 'times', description: 'drawn evenly between the two, once for all years of a run' });

/** What `darkweek stress` draws for the years that it simulates. */
export const stress = z
  .strictObject({
    runs: num('runs', '', 1, 2000, 'of all years of the study, each drawn anew').int().default(25),
    seed: text('seed', 'another seed draws others; the same gives the same figures').default('stress'),
    weather: z.enum(['made', 'listed', 'repeat']).nullable().default(null).meta({
      title: 'weather of the years',
      description:
        "'made': years made from the monthly means of the weather file; 'listed': horizon.weatherYears in any order; 'repeat': the same year; left out: the list where there is one, else made",
    }),
    weatherYears: num('made years of weather', '', 2, 200, 'each year of a run is one of them')
      .int()
      .default(30),
    load: factors('load', 0.2, 5).default([1, 1.15]),
    fuelPrice: factors('fuel price', 0.1, 10).default([1, 1]),
    startFailureChance: frac(
      'chance that a start attempt fails',
      'left out: as filed, else 0.05; where the site file states failing starts, their further attempts and pause hold',
    )
      .nullable()
      .default(null),
    lateDelivery: z
      .strictObject({
        chance: frac('share of the years with one', 'of fixed deliveries one is missed').default(0.1),
        days: num('late by', 'd', 0, 365, 'every delivery on order of such a year').default(14),
      })
      .prefault({})
      .meta({ title: 'late or missed delivery of fuel' }),
  })
  .meta({ title: 'stress', description: 'many years at once' });
