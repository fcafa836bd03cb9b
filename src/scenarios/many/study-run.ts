import type { Inputs } from '../../sim/inputs.ts';
import { lifeCycleOf, type UseOfYear } from '../cash-flow.ts';
import { siteWithWeather, weatherOfYear } from '../horizon-weather.ts';
import { growthBy, type YearConditions, yearsUnder } from '../horizon-years.ts';
import type { InputMaker, SiteInputs } from '../inputs-from-site.ts';
import { bankPrice } from '../life-cycle.ts';
import type { LifeCycle } from '../money.ts';
import type { Site } from '../site-schema.ts';

/** The years of an alternative, simulated once; what they cost at other prices follows without another simulation. */
export interface StudyRun {
  site: Site;
  /** of the alternative, against the site as filed */
  capitalDifference: number;
  /** banks are bought in every year in which one is due, the last one too */
  uses: UseOfYear[];
  /** what the battery is worth at the end of each year, were it the last, of a new one */
  worthAsLastFrac: number[];
}

/** What may be multiplied as a whole. */
export interface Factors {
  load?: number;
  arrays?: number;
}

/**
 * Simulates the years of a site one after the other, as `darkweek horizon` does.
 * @param years how many; may be more or fewer than the site's study has
 */
export function simulateStudy(
  site: Site,
  capitalDifference: number,
  maker: Pick<InputMaker, 'make'>,
  years: number = site.money.years,
  factors: Factors = {},
): StudyRun {
  // one more, so that a bank that is due in the last of them is bought
  const longer: Site = { ...site, money: { ...site.money, years: years + 1 } };
  const conditions = (year: number): YearConditions => {
    const weather = weatherOfYear(site, year);
    const made = maker.make(siteWithWeather(site, weather)) as SiteInputs;
    return {
      ...{ weather, site },
      made: { ...made, inputs: withArrays(made.inputs, factors.arrays ?? 1) },
      loadFactor: growthBy(site, year) * (factors.load ?? 1),
    };
  };
  const run: StudyRun = { site, capitalDifference, uses: [], worthAsLastFrac: [] };
  for (const { year, worthAsLastFrac } of yearsUnder(longer, conditions)) {
    const { fuelL, runH, servedKwh, unservedKwh, visits, battery } = year;
    const batteries = battery?.replacedAt.length ?? 0;
    run.uses.push({ fuelL, runH, servedKwh, unservedKwh, visits, batteries });
    run.worthAsLastFrac.push(worthAsLastFrac);
    if (run.uses.length === years) break;
  }
  return run;
}

/** What the arrays and other sources offer, behind their converters, multiplied. */
function withArrays(inputs: Inputs, factor: number): Inputs {
  if (factor === 1) return inputs;
  const times = (kw: Float64Array | undefined) => kw?.map((value) => value * factor);
  return { ...inputs, dcArrayKw: times(inputs.dcArrayKw), acArrayKw: times(inputs.acArrayKw) };
}

/**
 * What the years cost at other prices than the site's. A module's price counts at the start too: the capital of the
 * site file is taken to hold its modules at the price that the file states.
 * @param money what differs from the site's
 * @param years of the study, at most those simulated
 */
export function costOfStudy(
  { site, capitalDifference, uses, worthAsLastFrac }: StudyRun,
  money: Partial<Site['money']> = {},
  years: number = site.money.years,
): LifeCycle {
  const changed = { battery: site.battery, money: { ...site.money, ...money } };
  const dearer = bankPrice(changed) - bankPrice(site);
  const counted = uses.slice(0, years).map((use, i) => (i === years - 1 ? { ...use, batteries: 0 } : use));
  return lifeCycleOf(
    changed,
    changed.money.capital + capitalDifference + dearer,
    counted,
    bankPrice(changed),
    worthAsLastFrac[years - 1],
  );
}
