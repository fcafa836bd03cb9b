import type { Alternative } from '../alternatives.ts';
import { changedSite, valueOfPath } from '../apply-changes.ts';
import type { InputMaker } from '../inputs-from-site.ts';
import type { Site } from '../site-schema.ts';
import { costOfStudy, type StudyRun, simulateStudy } from './study-run.ts';
import { isFactor, type Uncertain, uncertainOf } from './uncertain.ts';

/** What a site comes to over its study. */
export interface StudyFigures {
  lifeCycleCost: number;
  /** means of a year */
  fuelL: number;
  runH: number;
  unservedKwh: number;
}

/** One uncertain value at both ends, all others as filed. */
export interface SensitivityRow extends Uncertain {
  /** of each alternative looked at */
  atLow: StudyFigures[];
  atHigh: StudyFigures[];
}

export interface SensitivityResult {
  names: string[];
  years: number;
  filed: StudyFigures[];
  /** by effect, the greatest first: on the cost, or on the difference in cost where there are two */
  rows: SensitivityRow[];
}

export interface SensitivityProgress {
  done: number;
  of: number;
  path: string;
}

/**
 * Changes every uncertain value of a site by itself, to its lowest and to its highest, and simulates all years anew
 * where it is no mere price.
 * @param looked one alternative, or two whose difference is looked at
 */
export function* sensitivity(
  looked: readonly Alternative[],
  maker: Pick<InputMaker, 'make'>,
): Generator<SensitivityProgress, SensitivityResult> {
  const { years } = looked[0].site.money;
  const runs = looked.map(({ site, capital }) => simulateStudy(site, capital, maker));
  const filed = runs.map((run) => figuresOf(run, {}));
  const rows: SensitivityRow[] = [];
  const listed = uncertainOf(looked[0].site);
  for (const [i, uncertain] of listed.entries()) {
    yield { done: i, of: listed.length, path: uncertain.path };
    const at = (value: number) =>
      runs.map((run, k) => figuresAt(looked[k], run, uncertain.path, value, maker));
    rows.push({ ...uncertain, atLow: at(uncertain.low), atHigh: at(uncertain.high) });
  }
  const sorted = rows.sort((a, b) => effectOf(b) - effectOf(a));
  return { names: looked.map(({ name }) => name), years, filed, rows: sorted };
}

/** The cost that is looked at: of the one, or how much more the second costs. */
export function costShown(figures: readonly StudyFigures[]): number {
  const [first, second] = figures;
  return second ? second.lifeCycleCost - first.lifeCycleCost : first.lifeCycleCost;
}

/** How far the cost moves from the one end to the other. */
export function effectOf({ atLow, atHigh }: SensitivityRow): number {
  return Math.abs(costShown(atHigh) - costShown(atLow));
}

/** Prices that change what the years cost and not how they go. */
const PRICES = [
  'fuelPerL',
  'fuelEscalation',
  'discountRate',
  'serviceCost',
  'overhaulCost',
  'capital',
  'unservedPerKwh',
  'visitCost',
  'batteryPerModule',
];

function figuresAt(
  { site, capital }: Alternative,
  run: StudyRun,
  path: string,
  value: number,
  maker: Pick<InputMaker, 'make'>,
): StudyFigures {
  const [group, key] = path.split('.');
  if (group === 'money' && PRICES.includes(key)) return figuresOf(run, { [key]: value });
  if (path === 'load' || path === 'arrays')
    return figuresOf(simulateStudy(site, capital, maker, site.money.years, { [path]: value }));
  // an alternative without the thing does not notice
  if (valueOfPath(site, path.split('.').slice(0, -1).join('.')) == null) return figuresOf(run);
  return figuresOf(simulateStudy(changedTo(site, path, value), capital, maker));
}

function changedTo(site: Site, path: string, value: number): Site {
  if (!isFactor(path)) return changedSite(site, { [path]: value });
  const fuel = site.generator?.fuel.map(({ kW, lPerH }) => ({ kW, lPerH: lPerH * value }));
  return changedSite(site, { [path]: fuel });
}

function figuresOf(run: StudyRun, money: Partial<Site['money']> = {}): StudyFigures {
  const years = run.uses.length;
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / years;
  return {
    lifeCycleCost: costOfStudy(run, money, years).lifeCycleCost,
    fuelL: mean(run.uses.map(({ fuelL }) => fuelL)),
    runH: mean(run.uses.map(({ runH }) => runH)),
    unservedKwh: mean(run.uses.map(({ unservedKwh }) => unservedKwh)),
  };
}
