import type { Alternative } from '../alternatives.ts';
import type { InputMaker } from '../inputs-from-site.ts';
import type { Issue } from '../issue.ts';
import type { StudyRequest } from '../run-study.ts';
import type { Site } from '../site-schema.ts';
import { prepareYears } from './many-study.ts';
import { drawRun } from './stress-draws.ts';
import type { StressAlternative, StressRun, StressStudy, StressTerms } from './stress-result.ts';
import { simulateRun, startFailureChance } from './stress-run.ts';
import { StressWeathers } from './stress-weathers.ts';
import { costOfStudy, simulateStudy } from './study-run.ts';

export interface StressRequest extends StudyRequest {
  /** another number of runs, or another seed, than the site file has */
  runs?: number;
  seed?: string;
}

/** A stress that is read and found sound, before its first run. */
export interface StressPlan {
  study: StressStudy;
  alternatives: readonly Alternative[];
  weathers: StressWeathers;
  maker: InputMaker;
}

/** Reads and checks a site and what its stress needs. With an error among the issues there is no plan. */
export function planStress(request: StressRequest): { plan: StressPlan | null; issues: Issue[] } {
  const { prepared, issues } = prepareYears(request);
  if (prepared === null) return { plan: null, issues };
  const { facts, maker } = prepared;
  const alternatives = prepared.alternatives.map((one) => ({ ...one, site: withRequest(one.site, request) }));
  const [{ site }] = alternatives;
  const weathers = new StressWeathers(site, maker);
  const study: StressStudy = {
    ...facts,
    start: site.period.start,
    terms: termsOf(site, weathers),
    alternatives: [],
  };
  return { plan: { study, alternatives, weathers, maker }, issues };
}

function withRequest(site: Site, { runs, seed }: StressRequest): Site {
  const { stress } = site;
  return { ...site, stress: { ...stress, runs: runs ?? stress.runs, seed: seed ?? stress.seed } };
}

function termsOf(site: Site, weathers: StressWeathers): StressTerms {
  const { stress, money, horizon, tank, generator } = site;
  const { chance, days } = stress.lateDelivery;
  const delivered = generator && tank && (tank.orderAtL !== null || tank.fillDates.length > 0);
  return {
    runs: stress.runs,
    years: money.years,
    seed: stress.seed,
    weather: weathers.terms,
    load: stress.load,
    fuelPrice: stress.fuelPrice,
    loadGrowth: horizon.loadGrowth,
    startFailureChance: startFailureChance(site),
    lateDelivery: delivered && chance > 0 ? { chance, days, fixed: tank.fillDates.length > 0 } : null,
  };
}

export interface StressProgress {
  name: string;
  /** runs of this alternative that are done, and of how many */
  done: number;
  of: number;
  /** the run that has just been simulated; null where it was known */
  fresh: StressRun | null;
}

/**
 * Simulates the runs of every alternative. It stops where its caller stops asking for more.
 * @param known a run of an alternative that an earlier, stopped stress has left
 */
export function* runStress(
  { study, alternatives, weathers, maker }: StressPlan,
  known: (name: string, run: number) => StressRun | null,
): Generator<StressProgress, StressStudy> {
  const { runs: of } = study.terms;
  for (const alternative of alternatives) {
    const { name } = alternative;
    const told = startOf(alternative, maker);
    study.alternatives.push(told);
    for (let run = 1; run <= of; run++) {
      const before = known(name, run);
      const done = before ?? simulateRun(alternative, drawOf(alternative.site, run, weathers), weathers);
      told.runs.push(done);
      yield { name, done: run, of, fresh: before ? null : done };
    }
  }
  return study;
}

/** What a run of a site draws. @param run from 1 */
export function drawOf(site: Site, run: number, weathers: StressWeathers) {
  return drawRun(site, run, site.money.years, weathers.terms.count);
}

function startOf({ site, name, note, changes, capital }: Alternative, maker: InputMaker): StressAlternative {
  const plain = simulateStudy(site, capital, maker);
  const fuelL = plain.uses.reduce((sum, use) => sum + use.fuelL, 0) / plain.uses.length;
  return {
    ...{ name, note, changes },
    has: {
      battery: site.battery !== null,
      array: site.arrays.length + site.sources.length > 0,
      generator: site.generator !== null,
    },
    runs: [],
    plain: { fuelL, lifeCycleCost: costOfStudy(plain).lifeCycleCost },
  };
}
