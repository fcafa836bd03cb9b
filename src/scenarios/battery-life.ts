import type { StepColumns } from '../sim/columns.ts';
import { activationForDoubling, equivalentCellC } from '../sim/wear/calendar-ageing.ts';
import { cycleLifeByPoints } from '../sim/wear/cycle-life.ts';
import { makeCycleList } from '../sim/wear/cycle-list.ts';
import { newBattery, type WearLaw, yearsToEndOfLife } from '../sim/wear/fade.ts';
import { rainflowInto } from '../sim/wear/rainflow.ts';
import type { Site } from './site-schema.ts';

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
  const soc = columns.socFrac;
  if ((soc.length * stepMin) / 1440 < LEAST_DAYS) return null;
  const law = wearLaw(battery.wear);
  const cycles = makeCycleList();
  const history = new Float64Array(soc.length + 1);
  history[0] = battery.initialSoc;
  history.set(soc, 1);
  rainflowInto(cycles, history);
  const years = (soc.length * stepMin) / 60 / 8760;
  for (let i = 0; i < cycles.size; i++) cycles.count[i] /= years;
  const use = { cycles, meanCellC: equivalentCellC(law.calendar, columns.cellC), meanSocFrac: meanOf(soc) };
  return yearsToEndOfLife(law, newBattery(), use, MOST_BATTERY_YEARS) ?? MOST_BATTERY_YEARS;
}

/** A season is no year: its cells are too warm or too cold, its cycles too deep or too shallow. */
const LEAST_DAYS = 360;

/** The maker's cycle tests end at the same capacity as the battery's life; the state of charge does not age it. */
function wearLaw(wear: NonNullable<NonNullable<Site['battery']>['wear']>): WearLaw {
  return {
    calendar: {
      fadeFirstYear: wear.fadeFirstYear,
      timeExponent: wear.timeExponent,
      referenceC: wear.referenceC,
      activationJPerMol: activationForDoubling(wear.referenceC, wear.halvingK),
      referenceSocFrac: 0.5,
      socSlope: 0,
      socCubic: 0,
    },
    cycleLife: cycleLifeByPoints(
      wear.cycleLife.map(({ depth }) => depth),
      wear.cycleLife.map(({ cycles }) => cycles),
    ),
    cycleReferenceC: wear.referenceC,
    lifeHalvingK: wear.halvingK,
    testEndFrac: wear.endOfLife,
    endOfLifeFrac: wear.endOfLife,
    resistancePerCalendarFade: 0,
    resistancePerCycleFade: 0,
  };
}

function meanOf(values: Float64Array): number {
  let sum = 0;
  for (const value of values) sum += value;
  return sum / values.length;
}
