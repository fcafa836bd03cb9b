import { z } from 'zod';
import { frac, num } from './site-fields.ts';

/** What a search for settings or sizes must keep to; each by the year where it is a sum. */
export const limits = z
  .strictObject({
    unservedKwh: num(
      'most unserved energy',
      'kWh a year',
      0,
      1e6,
      'left out: no more than the site as filed has',
    ).optional(),
    startsADay: num(
      'most generator starts in a day',
      '',
      1,
      96,
      'left out: design.mostStartsPerDay, or what the site as filed has where that is more',
    ).optional(),
    runHours: num(
      'most generator hours',
      'h a year',
      0,
      8784,
      'left out: what the class of its rating allows, if it is stated',
    ).optional(),
    nightHours: num(
      'most generator hours in the night',
      'h a year',
      0,
      8784,
      'left out: no limit',
    ).optional(),
    leastSoc: frac('least state of charge', 'a reserve for worse years; left out: no limit').optional(),
  })
  .meta({ title: 'limits', description: 'that a search for settings or sizes keeps to' });
