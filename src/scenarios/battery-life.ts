import type { StepColumns } from '../sim/columns.ts';
import { newBattery, yearsToEndOfLife } from '../sim/wear/fade.ts';
import type { Site } from './site-schema.ts';
import { wearLaw, yearOfUse } from './wear-from-site.ts';

/** Beyond this many years a battery is not said to live: nobody has tried. */
export const MOST_BATTERY_YEARS = 30;

/**
 * Years until a new battery is worn out if every year is like the simulated period: cycles counted by rainflow
 * (ASTM E1049-85) against the maker's table, and age by temperature. The fade does not act on the simulation.
 * @returns at most `MOST_BATTERY_YEARS`; null where the site states no wear, or the period is no whole year
 */
export function batteryLifeYears(site: Site, stepMin: number, columns: StepColumns): number | null {
  const { battery } = site;
  if (!battery?.wear) return null;
  if ((columns.socFrac.length * stepMin) / 1440 < LEAST_DAYS) return null;
  const law = wearLaw(battery.wear);
  const use = yearOfUse(law, battery.initialSoc, stepMin, columns);
  return yearsToEndOfLife(law, newBattery(), use, MOST_BATTERY_YEARS) ?? MOST_BATTERY_YEARS;
}

/** A season is no year: its cells are too warm or too cold, its cycles too deep or too shallow. */
const LEAST_DAYS = 360;
