import type { StepColumns } from '../sim/columns.ts';
import { activationForDoubling, equivalentCellC } from '../sim/wear/calendar-ageing.ts';
import { cycleLifeByPoints } from '../sim/wear/cycle-life.ts';
import { makeCycleList } from '../sim/wear/cycle-list.ts';
import type { WearLaw, YearOfUse } from '../sim/wear/fade.ts';
import { rainflowInto } from '../sim/wear/rainflow.ts';
import type { Site } from './site-schema.ts';

/** How a site's battery wears, as its maker tells it. */
export type SiteWear = NonNullable<NonNullable<Site['battery']>['wear']>;

/** The maker's cycle tests end at the same capacity as the battery's life; the state of charge does not age it. */
export function wearLaw(wear: SiteWear): WearLaw {
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
    resistancePerCalendarFade: wear.resistancePerAgeFade,
    resistancePerCycleFade: wear.resistancePerCycleFade,
  };
}

/**
 * What a simulated period did with the battery, by the year: cycles by rainflow (ASTM E1049-85), and the
 * temperature that ages it as much as the changing one did.
 * @param startSoc state of charge before the first step
 */
export function yearOfUse(law: WearLaw, startSoc: number, stepMin: number, columns: StepColumns): YearOfUse {
  const soc = columns.socFrac;
  const cycles = makeCycleList();
  const history = new Float64Array(soc.length + 1);
  history[0] = startSoc;
  history.set(soc, 1);
  rainflowInto(cycles, history);
  const years = (soc.length * stepMin) / 60 / 8760;
  for (let i = 0; i < cycles.size; i++) cycles.count[i] /= years;
  return { cycles, meanCellC: equivalentCellC(law.calendar, columns.cellC), meanSocFrac: meanOf(soc) };
}

function meanOf(values: Float64Array): number {
  let sum = 0;
  for (const value of values) sum += value;
  return sum / values.length;
}
