import { z } from 'zod';
import { frac, monthsOfYear, num, text, timeOfDay, weekdaysOfWeek } from './site-fields.ts';

/** Other thresholds for a season, for weekdays, for hours: the first entry that fits holds. */
export const calendar = z
  .array(
    z.strictObject({
      name: text('name'),
      months: monthsOfYear,
      weekdays: weekdaysOfWeek,
      hours: z.strictObject({ from: timeOfDay, to: timeOfDay }).optional().meta({ title: 'hours' }),
      startSoc: frac('start at', 'as in charge; left out: as otherwise').optional(),
      stopSoc: frac('stop at').optional(),
      urgentSoc: frac('urgent state of charge').optional(),
      peakStartKw: num('peak start above, per phase', 'kW', 0, 10_000).optional(),
      peakStopKw: num('peak stop below, per phase', 'kW', 0, 10_000).optional(),
    }),
  )
  .max(200)
  .default([])
  .meta({ title: 'calendar of thresholds' });
