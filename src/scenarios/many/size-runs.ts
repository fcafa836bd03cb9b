import type { SiteChanges } from '../apply-changes.ts';
import type { Site } from '../site-schema.ts';
import type { Catalogue } from './catalogue.ts';
import type { CoarseMargin } from './coarse-margin.ts';
import { type Hoped, hopeOf } from './coarse-margin.ts';
import type { Evaluate } from './evaluate.ts';
import { type AskedLimits, brokenLimits, type Limits, limitsOf, type SourcedLimits } from './limits.ts';
import { runningCostOf } from './score.ts';
import { sizeChanges } from './size-changes.ts';
import { type AskedSizes, allSizes, type Size, sizeLists, sizeOf } from './sizes.ts';
import { byTheYear, type YearOutcome } from './year-outcome.ts';

/** What is run, and what it is held against. */
export interface SizeRunsRequest {
  site: Site;
  /** changes of an alternative, made before those of the sizes */
  base: SiteChanges;
  /** evaluates changes of the site as filed */
  evaluate: Evaluate;
  /** step of the figures [min] */
  stepMin: number;
  catalogue: Catalogue;
  asked: AskedSizes;
  limits: AskedLimits;
}

/** All choices of sizes by their places in a list, each run once at the step of the figures, if at all. */
export class SizeRuns {
  readonly lists;
  readonly sizes: Size[];
  readonly changes: SiteChanges[];
  /** place of the site's own sizes */
  readonly own: number;
  /** how many at coarse steps */
  coarseRuns = 0;
  private readonly evaluate: Evaluate;
  private readonly fine = new Map<number, YearOutcome>();
  private coarse: YearOutcome[] = [];
  private hopes: Hoped[] = [];

  constructor(private readonly request: SizeRunsRequest) {
    const { site, catalogue, asked, base } = request;
    this.lists = sizeLists(site, catalogue, asked);
    this.sizes = allSizes(this.lists);
    this.changes = this.sizes.map((size) => ({ ...base, ...sizeChanges(size, site, catalogue) }));
    const own = sizeOf(site);
    this.own = this.sizes.findIndex((size) => isSame(size, own));
    this.evaluate = byTheYear(request.evaluate, site.period.days);
  }

  /** how many at the step of the figures */
  get fineRuns(): number {
    return this.fine.size;
  }

  /** The limits; those that are not stated come from the site's own sizes, which must have been run. */
  get sourced(): SourcedLimits {
    return limitsOf(this.request.site, this.request.limits, this.fineOf(this.own));
  }

  isFine(i: number): boolean {
    return this.fine.has(i);
  }

  async runFinely(places: readonly number[]): Promise<void> {
    const fresh = places.filter((i) => !this.fine.has(i));
    const outcomes = await this.evaluate(
      fresh.map((i) => this.changes[i]),
      this.request.stepMin,
    );
    for (const [n, i] of fresh.entries()) this.fine.set(i, outcomes[n]);
  }

  async coarsely(places: readonly number[], stepMin: number): Promise<YearOutcome[]> {
    this.coarseRuns += places.length;
    return this.evaluate(
      places.map((i) => this.changes[i]),
      stepMin,
    );
  }

  /** All choices at a coarse step, of which so much is taken off as it may say too much. */
  async runAllCoarsely(stepMin: number, margin: CoarseMargin): Promise<void> {
    this.coarse = await this.coarsely([...this.sizes.keys()], stepMin);
    const { limits } = limitsOf(this.request.site, this.request.limits, this.coarse[this.own]);
    this.hopes = this.coarse.map((outcome) => hopeOf(outcome, margin, limits));
  }

  fineOf(i: number): YearOutcome {
    const outcome = this.fine.get(i);
    if (outcome === undefined) throw new Error('a choice that was not run');
    return outcome;
  }

  /** The outcome at the finest step at which it was run. */
  outcomeOf(i: number): YearOutcome {
    return this.fine.get(i) ?? this.coarse[i];
  }

  /** What a choice shows, or could at best show where it was run coarsely only. */
  hopeAt(i: number, limits: Limits): Hoped {
    const outcome = this.fine.get(i);
    if (outcome === undefined) return this.hopes[i];
    return {
      runningCost: runningCostOf(outcome),
      fuelL: outcome.fuelL,
      unservedKwh: outcome.unservedKwh,
      keepsLimits: brokenLimits(outcome, limits).length === 0,
    };
  }
}

function isSame(a: Size, b: Size): boolean {
  return (
    a.generatorKw === b.generatorKw &&
    a.inverterKva === b.inverterKva &&
    a.modules === b.modules &&
    a.arrayTimes === b.arrayTimes
  );
}
