import type { Alternative } from '../alternatives.ts';
import { changedSite } from '../apply-changes.ts';
import type { InputMaker } from '../inputs-from-site.ts';
import type { LifeCycle } from '../money.ts';
import type { Site } from '../site-schema.ts';
import {
  BREAK_EVEN_VALUES,
  type BreakEvenKey,
  usualRange,
  VALUE_LIMITS,
  type ValueRange,
} from './break-even-values.ts';
import { paybackYears } from './payback.ts';
import { findRoots } from './root-search.ts';
import { costOfStudy, type StudyRun, simulateStudy } from './study-run.ts';

/** Life-cycle costs of the two. */
type Pair = [number, number];

/** Where the two change places. */
export interface Crossing {
  /** where they cost the same; of a jump and of years: the value from which the other is cheaper */
  value: number;
  kind: 'equal' | 'jump' | 'whole years';
  costs: Pair;
  /** which of the two is cheaper just below, 0 or 1; just above it is the other */
  cheaperBelow: 0 | 1;
}

export interface BreakEven extends ValueRange {
  key: BreakEvenKey;
  /** costs over the range, rising by value */
  curve: { value: number; costs: Pair }[];
  /** rising; empty: one of the two is cheaper in the whole range */
  crossings: Crossing[];
  /** both cost the same in the whole range */
  same: boolean;
}

/** One of the two, as filed. */
interface Side {
  name: string;
  capital: number;
  lifeCycleCost: number;
  /** means of a year of the study */
  fuelL: number;
  runH: number;
  unservedKwh: number;
}

/** How long the dearer of the two to build takes to pay back. */
interface Payback {
  /** 0 or 1 */
  dearer: 0 | 1;
  extraCapital: number;
  /** null: not within the years of the study */
  simpleYears: number | null;
  discountedYears: number | null;
}

export interface BreakEvenResult {
  sides: [Side, Side];
  years: number;
  discountRate: number;
  /** whether load unserved has a price, which is in the costs then */
  unservedPriced: boolean;
  /** null where both cost the same to build */
  payback: Payback | null;
  values: BreakEven[];
}

export interface BreakEvenProgress {
  key: BreakEvenKey;
  /** values for which both were worked out */
  tried: number;
}

/** Costs of the two are the same when they differ by at most this share; it is looked for a little closer. */
const SAME_COST = 1e-6;
const SOUGHT_COST = 1e-7;

/**
 * Growth is closed in to this: every try simulates all years, and because a start of the generator that moves by a
 * step moves its fuel too, costs have jumps of their own.
 */
const GROWTH_WIDTH = 1e-5;

const INTERVALS: Record<BreakEvenKey, number> = {
  fuelPrice: 60,
  discountRate: 60,
  batteryPrice: 60,
  loadGrowth: 6,
  studyYears: 0,
};

/**
 * The values at which two alternatives cost the same over the study, each of their years simulated.
 * @param asked values and ranges to look at; a range of null is the usual one
 */
export function* breakEven(
  pair: readonly [Alternative, Alternative],
  maker: Pick<InputMaker, 'make'>,
  asked: readonly { key: BreakEvenKey; from?: number; to?: number }[] = BREAK_EVEN_VALUES.map((key) => ({
    key,
  })),
): Generator<BreakEvenProgress, BreakEvenResult> {
  const sites = pair.map(({ site }) => site);
  const ranges = asked.flatMap(({ key, from, to }) => {
    const usual = usualRange(key, sites);
    return usual ? [{ key, ...usual, ...rangeOf(key, usual, from, to) }] : [];
  });
  const longest = Math.max(
    sites[0].money.years,
    ...ranges.filter(({ key }) => key === 'studyYears').map(({ to }) => to),
  );
  const runs = pair.map(({ site, capital }) => simulateStudy(site, capital, maker, longest));
  const costs = costsOf(pair, runs, maker);
  const values: BreakEven[] = [];
  for (const range of ranges)
    values.push(yield* range.key === 'studyYears' ? byYears(range, costs) : byRoots(range, costs));
  const { years, discountRate, unservedPerKwh } = sites[0].money;
  const lives = runs.map((run) => costOfStudy(run, {}, years));
  return {
    sides: pair.map(({ name }, i) => sideOf(name, runs[i], lives[i], years)) as [Side, Side],
    years,
    discountRate,
    unservedPriced: unservedPerKwh > 0,
    payback: paybackOf(lives, discountRate),
    values,
  };
}

/** The range asked for; an end that is left out is the usual one, or the site file's limit where that is beyond. */
function rangeOf(key: BreakEvenKey, usual: ValueRange, from?: number, to?: number) {
  const [least, most] = VALUE_LIMITS[key];
  return {
    from: from ?? (to !== undefined && to <= usual.from ? least : usual.from),
    to: to ?? (from !== undefined && from >= usual.to ? most : usual.to),
  };
}

type Costs = (key: BreakEvenKey, value: number) => Pair;

/** What both cost with one value changed in both. */
function costsOf(
  pair: readonly Alternative[],
  runs: readonly StudyRun[],
  maker: Pick<InputMaker, 'make'>,
): Costs {
  const { years } = pair[0].site.money;
  const each = (of: (run: StudyRun, i: number) => LifeCycle) =>
    runs.map((run, i) => of(run, i).lifeCycleCost) as Pair;
  return (key, value) => {
    if (key === 'studyYears') return each((run) => costOfStudy(run, {}, value));
    if (key !== 'loadGrowth') return each((run) => costOfStudy(run, moneyWith(key, value), years));
    return each((_, i) => {
      const { site, capital } = pair[i];
      const grown: Site = changedSite(site, { 'horizon.loadGrowth': value });
      return costOfStudy(simulateStudy(grown, capital, maker, years), {}, years);
    });
  };
}

function moneyWith(key: BreakEvenKey, value: number): Partial<Site['money']> {
  if (key === 'fuelPrice') return { fuelPerL: value };
  return key === 'discountRate' ? { discountRate: value } : { batteryPerModule: value };
}

type AskedRange = ValueRange & { key: BreakEvenKey };

function* byRoots(range: AskedRange, costsAt: Costs): Generator<BreakEvenProgress, BreakEven> {
  const { key, from, to } = range;
  const tried = new Map<number, Pair>();
  const search = findRoots({
    ...{ from, to, intervals: INTERVALS[key] },
    tolerance: SOUGHT_COST,
    width: key === 'loadGrowth' ? GROWTH_WIDTH : (to - from) * 1e-13,
  });
  let next = search.next();
  while (!next.done) {
    const costs = costsAt(key, next.value);
    tried.set(next.value, costs);
    yield { key, tried: tried.size };
    next = search.next(shareOf(costs));
  }
  const { roots, samples } = next.value;
  const curve = [...tried].sort(([a], [b]) => a - b).map(([value, costs]) => ({ value, costs }));
  const differ = samples.filter(({ value }) => Math.abs(value) > SOUGHT_COST);
  const crossings = roots.flatMap(({ at, jump }): Crossing[] => {
    const below = jump?.below ?? differ.findLast((sample) => sample.at < at)?.value ?? 0;
    const above = jump?.above ?? differ.find((sample) => sample.at > at)?.value ?? 0;
    // touched and not crossed, or the same everywhere
    if (below * above > 0 || below === above) return [];
    const cheaperBelow = (below !== 0 ? below < 0 : above > 0) ? 1 : 0;
    const costs = tried.get(at) as Pair;
    const kind = Math.abs(shareOf(costs)) > SAME_COST ? 'jump' : 'equal';
    return [{ value: at, kind, costs, cheaperBelow }];
  });
  return { ...range, curve, crossings: crossings.filter(isFirstOfSame), same: differ.length === 0 };
}

/** Of a stretch over which both cost the same its first value. */
function isFirstOfSame({ kind, cheaperBelow }: Crossing, i: number, all: readonly Crossing[]): boolean {
  const before = all[i - 1];
  return kind !== 'equal' || before?.kind !== 'equal' || before.cheaperBelow !== cheaperBelow;
}

/** How much more the second costs, as a share of the dearer. */
function shareOf([first, second]: Pair): number {
  return (second - first) / Math.max(Math.abs(first), Math.abs(second), 1e-9);
}

/** Studies have whole years: the number of them from which the other is cheaper. */
function* byYears(range: AskedRange, costsAt: Costs): Generator<BreakEvenProgress, BreakEven> {
  const curve: BreakEven['curve'] = [];
  for (let years = range.from; years <= range.to; years++)
    curve.push({ value: years, costs: costsAt('studyYears', years) });
  yield { key: 'studyYears', tried: curve.length };
  const crossings: Crossing[] = [];
  let before = 0;
  for (const { value, costs } of curve) {
    const now = Math.abs(shareOf(costs)) <= SAME_COST ? 0 : Math.sign(costs[1] - costs[0]);
    if (now * before < 0)
      crossings.push({ value, kind: 'whole years', costs, cheaperBelow: before < 0 ? 1 : 0 });
    if (now !== 0) before = now;
  }
  return { ...range, curve, crossings, same: before === 0 };
}

function sideOf(name: string, run: StudyRun, life: LifeCycle, years: number): Side {
  const mean = (values: readonly number[]) =>
    values.slice(0, years).reduce((sum, value) => sum + value, 0) / years;
  return {
    name,
    capital: life.cashFlow[0].capital,
    lifeCycleCost: life.lifeCycleCost,
    fuelL: mean(run.uses.map(({ fuelL }) => fuelL)),
    runH: mean(run.uses.map(({ runH }) => runH)),
    unservedKwh: mean(run.uses.map(({ unservedKwh }) => unservedKwh)),
  };
}

/** What the battery is worth at the end of the study is no saving of its last year, and is left out. */
function paybackOf([first, second]: readonly LifeCycle[], rate: number): Payback | null {
  const extra = second.cashFlow[0].total - first.cashFlow[0].total;
  if (extra === 0) return null;
  const [dear, cheap] = extra > 0 ? [second, first] : [first, second];
  const savings = dear.cashFlow
    .slice(1)
    .map(
      (year, i) => cheap.cashFlow[i + 1].total - cheap.cashFlow[i + 1].residual - year.total + year.residual,
    );
  return {
    dearer: extra > 0 ? 1 : 0,
    extraCapital: Math.abs(extra),
    simpleYears: paybackYears(Math.abs(extra), savings, 0),
    discountedYears: paybackYears(Math.abs(extra), savings, rate),
  };
}
