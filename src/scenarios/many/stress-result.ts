import { OUTAGE_CAUSES, type OutageCause } from '../../sim/causes.ts';
import type { Change } from '../study.ts';
import type { StudyFacts } from './many-study.ts';
import { type Band, bandOf } from './percentile.ts';
import type { YearDraw } from './stress-draws.ts';

/** What of a month or a year is told in bands. */
const STRESS_FIGURES = ['fuelL', 'runH', 'running', 'unservedKwh'] as const;

export type StressFigure = (typeof STRESS_FIGURES)[number];

/** `running`: paid for fuel and service, and for load unserved and call-outs where they have a price. */
export type StressFigures = Record<StressFigure, number>;

/** One year of one run, as it was simulated. */
export interface StressYear extends StressFigures {
  draw: YearDraw;
  /** capacity left at its start; null without a battery */
  capacityFrac: number | null;
  starts: number;
  loadKwh: number;
  unservedH: number;
  unservedByCauseKwh: Record<OutageCause, number>;
  months: StressFigures[];
}

/** All years of the study, one after the other. */
export interface StressRun {
  run: number;
  loadFactor: number;
  fuelPriceFactor: number;
  years: StressYear[];
  lifeCycleCost: number;
}

export interface StressAlternative {
  name: string;
  note: string;
  changes: Change[];
  has: { battery: boolean; array: boolean; generator: boolean };
  runs: StressRun[];
  /** the years as `darkweek horizon` has them: nothing drawn */
  plain: { fuelL: number; lifeCycleCost: number };
}

/** What the runs were drawn from, as they were: what the site has not is left out. */
export interface StressTerms {
  runs: number;
  years: number;
  seed: string;
  weather: { kind: 'made' | 'listed' | 'repeat'; count: number };
  load: [number, number];
  fuelPrice: [number, number];
  loadGrowth: number;
  startFailureChance: number | null;
  lateDelivery: { chance: number; days: number; fixed: boolean } | null;
}

export interface StressStudy extends StudyFacts {
  start: string;
  terms: StressTerms;
  /** the first is the site as filed */
  alternatives: StressAlternative[];
}

/** Less than this in a year is nothing [kWh]. */
const NOTHING_KWH = 1e-6;

export interface StressSummary {
  /** of single years, all runs together */
  year: Record<StressFigure, Band>;
  /** of each calendar month, all years and runs together */
  months: Record<StressFigure, Band>[];
  /** of each year of the study, over the runs */
  byYear: Record<StressFigure, Band>[];
  /** over the runs */
  lifeCycleCost: Band;
  years: number;
  yearsWithoutUnserved: number;
  runsWithoutUnserved: number;
  /** of all unserved energy of all years, the share of each cause; the greatest first, those without any left out */
  causes: { cause: OutageCause; frac: number }[];
}

/** Bands of everything that the runs of an alternative yield. */
export function summaryOf({ runs }: Pick<StressAlternative, 'runs'>): StressSummary {
  const years = runs.flatMap((run) => run.years);
  const none = ({ unservedKwh }: StressFigures) => unservedKwh < NOTHING_KWH;
  return {
    year: bandsOf(years),
    months: years[0].months.map((_, month) => bandsOf(years.map(({ months }) => months[month]))),
    byYear: runs[0].years.map((_, year) => bandsOf(runs.map((run) => run.years[year]))),
    lifeCycleCost: bandOf(runs.map(({ lifeCycleCost }) => lifeCycleCost)),
    years: years.length,
    yearsWithoutUnserved: years.filter(none).length,
    causes: causesOf(years),
    runsWithoutUnserved: runs.filter((run) => run.years.every(none)).length,
  };
}

function causesOf(years: readonly StressYear[]): StressSummary['causes'] {
  const all = years.reduce((sum, { unservedKwh }) => sum + unservedKwh, 0);
  return OUTAGE_CAUSES.map((cause) => {
    const kwh = years.reduce((sum, { unservedByCauseKwh }) => sum + unservedByCauseKwh[cause], 0);
    return { cause, frac: all > 0 ? kwh / all : 0 };
  })
    .filter(({ frac }) => frac > 0)
    .sort((a, b) => b.frac - a.frac);
}

function bandsOf(all: readonly StressFigures[]): Record<StressFigure, Band> {
  const bands = STRESS_FIGURES.map((figure) => [figure, bandOf(all.map((each) => each[figure]))]);
  return Object.fromEntries(bands) as Record<StressFigure, Band>;
}

/** The year with most unserved energy; where there is none in any, that with most fuel. Numbers from 1. */
export function worstYear({ runs }: Pick<StressAlternative, 'runs'>): { run: number; year: number } {
  let worst = { run: 1, year: 1, of: runs[0].years[0] };
  for (const { run, years } of runs)
    for (const [i, of] of years.entries()) {
      const more = of.unservedKwh - worst.of.unservedKwh;
      const isWorse = Math.abs(more) < NOTHING_KWH ? of.fuelL > worst.of.fuelL : more > 0;
      if (isWorse) worst = { run, year: i + 1, of };
    }
  return { run: worst.run, year: worst.year };
}
