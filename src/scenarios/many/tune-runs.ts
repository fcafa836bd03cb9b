import type { SiteChanges } from '../apply-changes.ts';
import type { Site } from '../site-schema.ts';
import type { Evaluate } from './evaluate.ts';
import type { Point, Tried } from './lattice-search.ts';
import { type AskedLimits, brokenLimits, limitsOf, type SourcedLimits } from './limits.ts';
import { otherYearChanges } from './other-years.ts';
import { runningCostOf, type Score, scoreOf } from './score.ts';
import { changesAt, type Setting } from './settings.ts';
import type { OtherYear } from './tune-result.ts';
import { byTheYear, type YearOutcome } from './year-outcome.ts';

/** What is run, and what it is held against. */
export interface RunsRequest {
  site: Site;
  /** changes of an alternative, made before those of the settings */
  base: SiteChanges;
  /** evaluates changes of the site as filed */
  evaluate: Evaluate;
  /** step of the figures [min] */
  stepMin: number;
  limits: AskedLimits;
}

/** Runs sets of settings, each once at the step of the figures, and scores them against the limits. */
export class TuneRuns {
  coarse = 0;
  private readonly outcomes = new Map<string, YearOutcome>();
  private readonly evaluate: Evaluate;
  private readonly today: Point;
  private sourced: SourcedLimits | null = null;

  constructor(
    private readonly request: RunsRequest,
    private readonly settings: readonly Setting[],
  ) {
    this.today = settings.map((setting) => setting.today);
    this.evaluate = byTheYear(request.evaluate, request.site.period.days);
  }

  /** how many at the step of the figures */
  get fine(): number {
    return this.outcomes.size;
  }

  /** The limits of the search; those that are not stated come from today's rules. */
  async limits(): Promise<SourcedLimits> {
    const { site, limits } = this.request;
    if (this.sourced === null) {
      await this.run([this.today]);
      this.sourced = limitsOf(site, limits, this.outcomeOf(this.today));
    }
    return this.sourced;
  }

  /** Scores at the step of the figures. */
  async scores(points: readonly Point[]): Promise<Score[]> {
    const { limits } = await this.limits();
    await this.run(points);
    return points.map((point) => scoreOf(this.outcomeOf(point), limits));
  }

  /** Points with their scores, whatever runs are left: what is shown of a result is always complete. */
  async tried(points: readonly Point[]): Promise<Tried[]> {
    const scores = await this.scores(points);
    return points.map((point, i) => ({ point, score: scores[i] }));
  }

  /** Scores at a coarse step, against limits of today's rules at that step. */
  async coarseScores(points: readonly Point[], stepMin: number): Promise<Score[]> {
    const { site, limits: asked } = this.request;
    const all = [this.today, ...points].map((point) => this.changes(point));
    const [today, ...outcomes] = await this.evaluate(all, stepMin);
    const { limits } = limitsOf(site, asked, today);
    this.coarse += all.length;
    return outcomes.map((outcome) => scoreOf(outcome, limits));
  }

  /** Today's rules and a set of them in years that the site file does not describe. */
  async inOtherYears(point: Point): Promise<OtherYear[]> {
    const { site, limits: asked, stepMin } = this.request;
    const years = otherYearChanges(site);
    const variants = years.flatMap(({ changes }) =>
      [this.today, point].map((one) => ({ ...this.changes(one), ...changes })),
    );
    const outcomes = await this.evaluate(variants, stepMin);
    return years.map(({ kind }, i) => {
      const [today, chosen] = outcomes.slice(2 * i, 2 * i + 2);
      const broken = brokenLimits(chosen, limitsOf(site, asked, today).limits);
      return { kind, today: runningCostOf(today), chosen: runningCostOf(chosen), broken };
    });
  }

  outcomeOf(point: Point): YearOutcome {
    const outcome = this.outcomes.get(point.join());
    if (outcome === undefined) throw new Error('a set of settings that was not run');
    return outcome;
  }

  /** A set of settings as changes of the site as filed. */
  changes(point: Point): SiteChanges {
    return { ...this.request.base, ...changesAt(this.request.site, this.settings, point) };
  }

  private async run(points: readonly Point[]): Promise<void> {
    const fresh = points.filter((point) => !this.outcomes.has(point.join()));
    if (fresh.length === 0) return;
    const outcomes = await this.evaluate(
      fresh.map((point) => this.changes(point)),
      this.request.stepMin,
    );
    for (const [i, point] of fresh.entries()) this.outcomes.set(point.join(), outcomes[i]);
  }
}
