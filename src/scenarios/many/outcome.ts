import type { Ledger } from '../../sim/ledger.ts';
import { moneyOf } from '../life-cycle.ts';
import type { Site } from '../site-schema.ts';

/**
 * What is asked about one of many variants of a site, in numbers alone. Energy, hours, fuel and counts are those of
 * the simulated period, as in a ledger; money and CO2 are by the year and over the study, as in `moneyOf`. Null where
 * the site has no such thing: the battery's without one (its years also without wear, or for less than a year), the
 * levelised cost where nothing was served.
 */
export interface Outcome {
  fuelL: number;
  /** engine running, all starts, and the most of them in one day from midnight */
  runH: number;
  starts: number;
  mostStartsADay: number;
  /** engine running below 30 % of its rating, and in the hours of the night */
  lowLoadH: number;
  nightH: number;
  unservedKwh: number;
  unservedH: number;
  outages: number;
  curtailedKwh: number;
  minSoc: number | null;
  batteryYears: number | null;
  /** paid at the start; fuel and service of the first year; present value of everything */
  capital: number;
  runningFirstYear: number;
  lifeCycleCost: number;
  levelised: number | null;
  co2Kg: number;
  /** persons who came because they were called */
  visits: number;
}

/** Numbers of an outcome, in the order in which tables have them. */
export const OUTCOME_KEYS = [
  'fuelL',
  'runH',
  'starts',
  'mostStartsADay',
  'lowLoadH',
  'nightH',
  'unservedKwh',
  'unservedH',
  'outages',
  'curtailedKwh',
  'minSoc',
  'batteryYears',
  'capital',
  'runningFirstYear',
  'lifeCycleCost',
  'levelised',
  'co2Kg',
  'visits',
] as const satisfies readonly (keyof Outcome)[];

/**
 * The outcome of a run.
 * @param extraCapital paid at the start beside the capital of the site
 * @param batteryYears to the end of the battery's life by its wear; null where that is not known
 */
export function outcomeOf(
  site: Site,
  extraCapital: number,
  ledger: Ledger,
  batteryYears: number | null,
): Outcome {
  const { totals, extremes } = ledger;
  const money = moneyOf(site, extraCapital, ledger, batteryYears);
  return {
    fuelL: totals.fuelL,
    runH: totals.runH,
    starts: totals.starts,
    mostStartsADay: mostStartsADay(ledger),
    lowLoadH: totals.lowLoadH,
    nightH: totals.nightH,
    unservedKwh: totals.unservedKwh,
    unservedH: totals.unservedH,
    outages: totals.outages,
    curtailedKwh: totals.curtailedKwh,
    minSoc: extremes.minSoc,
    batteryYears,
    capital: money.capital,
    runningFirstYear: money.runningFirstYear,
    lifeCycleCost: money.lifeCycleCost,
    levelised: money.levelisedCostPerKwh,
    co2Kg: money.co2FirstYearKg,
    visits: totals.visits,
  };
}

/** Days begin with the run, which begins at midnight. Runs are in the order of their starts. */
function mostStartsADay({ runs }: Pick<Ledger, 'runs'>): number {
  let most = 0;
  let day = -1;
  let count = 0;
  for (const { startH } of runs) {
    const on = Math.floor(startH / 24);
    count = on === day ? count + 1 : 1;
    day = on;
    most = Math.max(most, count);
  }
  return most;
}
