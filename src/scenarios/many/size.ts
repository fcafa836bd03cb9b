import { capitalRecoveryFactor } from '../present-value.ts';
import type { Catalogue } from './catalogue.ts';
import type { ChosenSite } from './chosen-site.ts';
import { type CoarseMargin, coarseMargin } from './coarse-margin.ts';
import { type CoarseTrial, tryCoarse } from './coarse-step.ts';
import { frontierOf } from './frontier.ts';
import { brokenLimits, type SourcedLimits } from './limits.ts';
import { runningCostOf } from './score.ts';
import type { CloudPoint, FuelFrontier, Sized, SizeResult } from './size-result.ts';
import { SizeRuns, type SizeRunsRequest } from './size-runs.ts';
import { spreadPoints } from './spread-points.ts';
import type { YearOutcome } from './year-outcome.ts';

export interface SizeRequest extends SizeRunsRequest {
  /** told what is being done, and how many runs there were */
  onProgress?: (doing: string, runs: number) => void;
}

/** What of a result depends on the search alone. */
export type SizeFindings = Omit<SizeResult, 'site' | 'alternative' | 'prices' | 'doubts' | 'made'>;

/** Choices run at both steps, to see whether the coarse one ranks them alike. */
const TRIAL_SIZES = 24;

/** So many choices are all shown. */
const FEW = 12;

/** Budgets of the fuel frontiers, in shares of the site's own capital; and none. */
const BUDGETS = [1, 1.25, null];

/**
 * Runs every choice of sizes at a coarse step, where that ranks a sample as the fine one does, and at the fine one
 * all those that could be on a frontier: as long as something on a frontier has been run coarsely only, and allowing
 * for what the coarse step said too much of the sample. Where no coarse step ranks well all are run finely. The same
 * site gives the same result, however many workers evaluate.
 */
export async function findSizes(request: SizeRequest): Promise<SizeFindings> {
  const search = new SizeSearch(request);
  await search.runAll();
  await search.refine();
  return search.findings();
}

/** All that is told of a search for sizes. @param file name of the catalogue */
export function sizeResultOf(
  { site, heading, alternative, doubts, made }: ChosenSite,
  found: SizeFindings,
  file: string,
  catalogue: Catalogue,
): SizeResult {
  const priced = Object.entries(site.prices).filter(([, price]) => price !== undefined);
  const prices = { file, catalogue, fromSite: priced.map(([key]) => key) };
  return { site: heading, alternative, ...found, prices, doubts, made };
}

class SizeSearch {
  private readonly runs: SizeRuns;
  private trials: CoarseTrial[] = [];
  private sourced!: SourcedLimits;

  constructor(private readonly request: SizeRequest) {
    this.runs = new SizeRuns(request);
  }

  /** All choices, coarsely where that will do. */
  async runAll(): Promise<void> {
    const { runs } = this;
    this.tell('some at several steps');
    const sample = this.sample();
    await runs.runFinely(sample);
    this.sourced = runs.sourced;
    const used = await this.tryCoarseSteps(sample);
    this.tell(`all at ${used?.stepMin ?? this.request.stepMin} min`);
    if (used === null) await runs.runFinely([...runs.sizes.keys()]);
    else await runs.runAllCoarsely(used.stepMin, used.margin);
  }

  /** Finely whatever is on a frontier and is not yet. */
  async refine(): Promise<void> {
    for (;;) {
      const places = [this.costFrontier(), ...this.fuelFrontiers().map(({ places }) => places)].flat();
      const fresh = [...new Set(places)].filter((i) => !this.runs.isFine(i));
      if (fresh.length === 0) return;
      this.tell('those that may be best, finely');
      await this.runs.runFinely(fresh);
    }
  }

  findings(): SizeFindings {
    const { runs, request } = this;
    const { years, discountRate } = request.site.money;
    const frontier = this.costFrontier().map((i) => this.sized(i));
    const byCost = [...frontier].sort((a, b) => a.outcome.lifeCycleCost - b.outcome.lifeCycleCost);
    const fuelFrontiers: FuelFrontier[] = this.fuelFrontiers().map(({ mostCapital, places }) => ({
      mostCapital,
      sizes: places.map((i) => this.sized(i)),
    }));
    return {
      ...{ years, discountRate, days: request.site.period.days, stepMin: request.stepMin },
      ...{ limits: this.sourced, lists: runs.lists, own: this.sized(runs.own) },
      ...{ cheapest: byCost[0] ?? null, frontier, fuelFrontiers },
      all: this.allOfFew(),
      cloud: runs.sizes.map((_, i) => this.cloudPoint(i)),
      effort: {
        choices: runs.sizes.length,
        fineRuns: runs.fineRuns,
        coarseRuns: runs.coarseRuns,
        trials: this.trials,
      },
    };
  }

  /** Few choices are asked about one by one: "20 or 30 kW". */
  private allOfFew(): Sized[] | null {
    const places = [...this.runs.sizes.keys()];
    if (places.length > FEW || !places.every((i) => this.runs.isFine(i))) return null;
    return places.map((i) => this.sized(i)).sort((a, b) => a.outcome.capital - b.outcome.capital);
  }

  /** Choices spread over all, the site's own first. */
  private sample(): number[] {
    const { own, sizes } = this.runs;
    const spread = spreadPoints(1, TRIAL_SIZES - 1).map(([share]) => Math.floor(share * sizes.length));
    return [...new Set([own, ...spread])];
  }

  private async tryCoarseSteps(
    sample: readonly number[],
  ): Promise<{ stepMin: number; margin: CoarseMargin } | null> {
    const { runs, request } = this;
    // a few choices are run sooner than tried
    if (runs.sizes.length <= 2 * TRIAL_SIZES) return null;
    const byLife = ({ lifeCycleCost }: YearOutcome) => ({ excess: 0, cost: lifeCycleCost });
    const fine = sample.map((i) => runs.fineOf(i));
    const margins: CoarseMargin[] = [];
    this.trials = await tryCoarse(fine.map(byLife), request.stepMin, async (stepMin) => {
      const coarse = await runs.coarsely(sample, stepMin);
      margins.push(coarseMargin(fine, coarse));
      return coarse.map(byLife);
    });
    const used = this.trials.findIndex(({ isUsed }) => isUsed);
    return used < 0 ? null : { stepMin: this.trials[used].stepMin, margin: margins[used] };
  }

  /** Capital against what is paid later, of choices that keep the limits or may do so; by rising capital. */
  private costFrontier(): number[] {
    const hopes = this.hopes();
    const places = [...hopes.keys()].filter((i) => hopes[i].keepsLimits);
    const weighed = places.map((i) => ({ x: this.capitalAt(i), y: hopes[i].runningCost }));
    return frontierOf(weighed).map((at) => places[at]);
  }

  /** The same of unserved energy against fuel, for each budget. */
  private fuelFrontiers(): { mostCapital: number | null; places: number[] }[] {
    const hopes = this.hopes();
    const own = this.capitalAt(this.runs.own);
    return BUDGETS.map((share) => {
      const mostCapital = share === null ? null : share * own;
      const places = [...hopes.keys()].filter(
        (i) => mostCapital === null || this.capitalAt(i) <= mostCapital,
      );
      const weighed = places.map((i) => ({ x: hopes[i].unservedKwh, y: hopes[i].fuelL }));
      return { mostCapital, places: frontierOf(weighed).map((at) => places[at]) };
    });
  }

  private hopes() {
    return this.runs.sizes.map((_, i) => this.runs.hopeAt(i, this.sourced.limits));
  }

  /** The same at every step. */
  private capitalAt(i: number): number {
    return this.runs.outcomeOf(i).capital;
  }

  private sized(i: number): Sized {
    const outcome = this.runs.fineOf(i);
    return {
      size: this.runs.sizes[i],
      changes: this.runs.changes[i],
      outcome,
      yearlyCost: this.yearly(outcome),
      broken: brokenLimits(outcome, this.sourced.limits),
    };
  }

  private cloudPoint(i: number): CloudPoint {
    const outcome = this.runs.outcomeOf(i);
    const { capital, fuelL, unservedKwh } = outcome;
    const keepsLimits = brokenLimits(outcome, this.sourced.limits).length === 0;
    return { capital, yearlyCost: this.yearly(outcome), fuelL, unservedKwh, keepsLimits };
  }

  private yearly(outcome: YearOutcome): number {
    const { discountRate, years } = this.request.site.money;
    return runningCostOf(outcome) * capitalRecoveryFactor(discountRate, years);
  }

  private tell(doing: string): void {
    this.request.onProgress?.(doing, this.runs.fineRuns + this.runs.coarseRuns);
  }
}
