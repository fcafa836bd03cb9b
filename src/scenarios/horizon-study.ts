import type { Alternative } from './alternatives.ts';
import { lifeCycleOf } from './cash-flow.ts';
import type { HorizonAlternative, HorizonStudy, HorizonSums, HorizonYear } from './horizon-result.ts';
import { readWeatherYears } from './horizon-weather.ts';
import { type SimulatedYears, simulateYears } from './horizon-years.ts';
import type { InputMaker, SiteInputs } from './inputs-from-site.ts';
import type { Issue, Place } from './issue.ts';
import { bankPrice } from './life-cycle.ts';
import type { LifeCycle } from './money.ts';
import {
  prepareStudy,
  type StudyRequest,
  simulateAlternative,
  siteHeading,
  watchReads,
} from './run-study.ts';
import type { Path } from './site-document.ts';
import type { Site } from './site-schema.ts';
import type { AlternativeResult } from './study.ts';

/** How far it is: after each year of an alternative, and after each alternative with what is finished by then. */
export interface HorizonProgress {
  name: string;
  /** years simulated of those of this alternative */
  year: number;
  years: number;
  /** with the alternatives finished so far; null while one is under way */
  study: HorizonStudy | null;
}

export interface HorizonResult {
  study: HorizonStudy | null;
  issues: Issue[];
}

/**
 * Reads, checks and simulates a site with its alternatives over all years of its study, year by year. It stops where
 * its caller stops asking for more, and what was finished before is whole.
 * With an error among the issues there is no study.
 */
export function* runHorizon(request: StudyRequest): Generator<HorizonProgress, HorizonResult> {
  const reads = watchReads(request);
  const { alternatives, maker, issues, placeOf } = prepareStudy(request, reads.readFile);
  const failed = (found: readonly Issue[]) => ({ study: null, issues: [...found, ...(maker?.issues ?? [])] });
  if (alternatives === null) return failed(issues);
  const sites = alternatives.map(({ site }) => site);
  issues.push(...readWeatherYears(sites, maker, reads.readFile, placeOf), ...yearIssues(sites[0], placeOf));
  if ([...issues, ...maker.issues].some(({ severity }) => severity === 'error')) return failed(issues);
  const study: HorizonStudy = {
    site: siteHeading(sites[0]),
    stepMin: request.stepMin ?? sites[0].period.stepMin,
    start: sites[0].period.start,
    alternatives: [],
    outstanding: alternatives.map(({ name }) => name),
    sheets: maker.sheets,
    doubts: [...issues, ...maker.issues],
    made: { version: request.version, inputsHash: reads.inputsHash() },
  };
  for (const alternative of alternatives) {
    study.alternatives.push(yield* yearsOfAlternative(alternative, maker));
    study.outstanding.shift();
    const { years } = alternative.site.money;
    yield { name: alternative.name, year: years, years, study };
  }
  return { study, issues: study.doubts };
}

/** Years follow one another only where each is a whole one. */
export function yearIssues({ period }: Site, placeOf: (path: Path) => Place): Issue[] {
  if (period.days === 365) return [];
  return [
    {
      severity: 'error',
      code: 'horizon',
      path: 'period.days',
      got: `${period.days}`,
      want: '365: years are simulated one after the other, each a whole one',
      at: placeOf(['period', 'days']),
    },
  ];
}

function* yearsOfAlternative(
  alternative: Alternative,
  maker: InputMaker,
): Generator<HorizonProgress, HorizonAlternative> {
  const { site, name, note, changes, capital } = alternative;
  const { money, horizon, battery, arrays, sources, generator } = site;
  // the files were read, and found sound, before the first year
  const first = simulateAlternative(alternative, maker)?.result as AlternativeResult;
  const steps = simulateYears(site, (of) => maker.make(of) as SiteInputs);
  let next = steps.next();
  for (; !next.done; next = steps.next())
    yield { name, year: next.value.year, years: money.years, study: null };
  const { years, worthLeftFrac } = next.value;
  const paid = moneyOfYears(site, capital, { years, worthLeftFrac });
  return {
    ...{ name, note, changes, years },
    ...firstYearRepeated(first),
    has: {
      battery: battery !== null,
      array: arrays.length + sources.length > 0,
      generator: generator !== null,
      wear: battery?.wear != null,
      money: paid.lifeCycleCost !== 0,
    },
    loadGrowth: horizon.loadGrowth,
    discountRate: money.discountRate,
    serviceEveryH: money.serviceEveryH,
    bankPrice: bankPrice(site),
    sums: sumsOf(years, paid),
    money: paid,
  };
}

/** What `darkweek simulate` makes of the first year: all later ones like it. */
function firstYearRepeated({ ledger, money, batteryLifeYears }: AlternativeResult) {
  const { fuelL, runH, unservedKwh } = ledger.totals;
  const { years, lifeCycleCost } = money;
  const shortcut: HorizonSums = {
    fuelL: fuelL * years,
    runH: runH * years,
    unservedKwh: unservedKwh * years,
    lifeCycleCost,
  };
  return { shortcut, shortcutLifeYears: batteryLifeYears };
}

function moneyOfYears(
  site: Site,
  capitalDifference: number,
  { years, worthLeftFrac }: SimulatedYears,
): LifeCycle {
  const capital = site.money.capital + capitalDifference;
  const uses = years.map(({ fuelL, runH, servedKwh, unservedKwh, visits, battery }) => {
    return { fuelL, runH, servedKwh, unservedKwh, visits, batteries: battery?.replacedAt.length ?? 0 };
  });
  return lifeCycleOf(site, capital, uses, bankPrice(site), worthLeftFrac);
}

function sumsOf(years: readonly HorizonYear[], { lifeCycleCost }: LifeCycle): HorizonSums {
  const sum = (of: (year: HorizonYear) => number) => years.reduce((total, year) => total + of(year), 0);
  return {
    fuelL: sum(({ fuelL }) => fuelL),
    runH: sum(({ runH }) => runH),
    unservedKwh: sum(({ unservedKwh }) => unservedKwh),
    lifeCycleCost,
  };
}
