import type { SiteChanges } from '../apply-changes.ts';
import { type CoarseTrial, tryCoarse } from './coarse-step.ts';
import { bandTop, flatStretch } from './flat.ts';
import {
  bestApart,
  bestOf,
  descend,
  type Point,
  type Space,
  spreadOver,
  type Tried,
  Tries,
} from './lattice-search.ts';
import { brokenLimits } from './limits.ts';
import { byScore } from './score.ts';
import { type Rule, type Season, type Setting, settingsOf } from './settings.ts';
import { spaceOf } from './settings-space.ts';
import type { TunedSetting, TuneResult } from './tune-result.ts';
import { type RunsRequest, TuneRuns } from './tune-runs.ts';
import type { YearOutcome } from './year-outcome.ts';

export interface TuneRequest extends RunsRequest {
  /** only these rules; null: all that the site has */
  rules: readonly Rule[] | null;
  seasons: readonly Season[];
  /** so many runs at the step of the figures for the search; what is shown of its result comes on top */
  mostRuns: number;
  /** told what is being done, and how many runs there were */
  onProgress?: (doing: string, runs: number) => void;
}

/** What of a result depends on the search alone. */
export type TuneFindings = Omit<TuneResult, 'site' | 'alternative' | 'doubts' | 'made'>;

/** Runs that are enough for so many settings, where nobody asks for more. */
export function usualRuns(rules: readonly Rule[] | null, seasons: readonly Season[]): number {
  const settings = Math.min(rules?.length ?? MOST_SETTINGS, MOST_SETTINGS) + 4 * seasons.length;
  return Math.max(LEAST_RUNS, RUNS_PER_SETTING * settings);
}

const RUNS_PER_SETTING = 80;
const LEAST_RUNS = 200;
const MOST_SETTINGS = 9;

/** Share of the runs that goes into spreading points. */
const SPREAD_SHARE = 0.25;
/** Points on which a coarse step is tried. */
const TRIAL_POINTS = 16;
/** Points that a coarse step looks at, for each that would be looked at finely. */
const COARSE_TIMES = 4;
/** Descents begin at so many points, apart from each other. */
const DESCENTS = 3;
/** Settings go back to today's value where all of that together costs no more than this share. */
const AS_TODAY_FRAC = 0.0005;

/**
 * The generator rules that cost least over the study within the limits: points spread over all settings (at a coarse
 * step, where that ranks a sample of them as the fine one does), descents from the best, every setting by itself over
 * all its values, and descents again while that finds something better. In the end settings whose change gains
 * nothing go back to what they are today. The same site gives the same result, however many workers evaluate.
 * @returns null where the site has no such rule
 */
export async function tune(request: TuneRequest): Promise<TuneFindings | null> {
  const search = await searched(request);
  return search === null ? null : search.findings();
}

/** What a search chose, and what it is held against. */
export interface ChosenRules {
  changes: SiteChanges;
  today: YearOutcome;
  chosen: YearOutcome;
}

/** The rules that `tune` chooses, without how much it matters that they are just these. */
export async function chooseRules(request: TuneRequest): Promise<ChosenRules | null> {
  const search = await searched(request);
  return search === null ? null : search.chosen();
}

async function searched(request: TuneRequest): Promise<TuneSearch | null> {
  const settings = settingsOf(request.site, request.rules, request.seasons);
  if (settings.length === 0) return null;
  const search = new TuneSearch(request, settings);
  const starts = await search.spread();
  await search.goDown(starts);
  await search.backToToday();
  return search;
}

/** One search under way. */
class TuneSearch {
  private readonly space: Space;
  private readonly today: Point;
  private readonly runs: TuneRuns;
  private readonly tries: Tries;
  private readonly trials: CoarseTrial[] = [];
  private best!: Tried;

  constructor(
    private readonly request: TuneRequest,
    private readonly settings: readonly Setting[],
  ) {
    this.space = spaceOf(request.site, settings);
    this.today = settings.map((setting) => setting.today);
    this.runs = new TuneRuns(request, settings);
    this.tries = new Tries((points) => this.runs.scores(points), request.mostRuns);
  }

  /** Points over the whole space; today's and the best of them, apart from each other. */
  async spread(): Promise<Tried[]> {
    const { mostRuns } = this.request;
    const count = Math.floor(mostRuns * SPREAD_SHARE);
    this.tell('sets spread over all settings');
    [this.best] = await this.tries.of([this.today]);
    const first = await this.tries.of(spreadOver(this.space, Math.min(TRIAL_POINTS, count)));
    const coarse = await this.coarseStep(first);
    const rest = coarse === null ? spreadOver(this.space, count) : await this.survivors(coarse, count);
    const tried = [this.best, ...first, ...(await this.tries.of(rest))];
    return bestApart(tried, this.space, DESCENTS);
  }

  /** Descents from the best points and from today's, then setting by setting until nothing is better. */
  async goDown(starts: readonly Tried[]): Promise<void> {
    for (const start of [...starts, this.best]) {
      this.tell('down from the best of them');
      this.best = bestOf([this.best, await descend(start, this.space, this.tries)]);
    }
    for (;;) {
      this.tell('every setting by itself');
      const near = await this.tries.of(this.settings.flatMap((_, i) => this.along(i)));
      const found = bestOf([this.best, ...near]);
      if (found === this.best) return;
      this.best = await descend(found, this.space, this.tries);
    }
  }

  /** What gains nothing is left as it is: setting by setting, and more than once, for they act together. */
  async backToToday(): Promise<void> {
    const { cost, excess } = this.best.score;
    const top = cost + AS_TODAY_FRAC * Math.abs(cost);
    for (const [i] of this.settings.entries()) {
      const point = this.best.point.map((place, j) => (j === i ? this.today[i] : place));
      if (point[i] === this.best.point[i] || !this.space.isAllowed(point)) continue;
      const [back] = await this.runs.tried([point]);
      if (back.score.excess <= excess && back.score.cost <= top) this.best = back;
    }
  }

  chosen(): ChosenRules {
    return {
      changes: this.runs.changes(this.best.point),
      today: this.runs.outcomeOf(this.today),
      chosen: this.runs.outcomeOf(this.best.point),
    };
  }

  async findings(): Promise<TuneFindings> {
    const { site, stepMin } = this.request;
    this.tell('how flat it is');
    const settings: TunedSetting[] = [];
    for (const [i] of this.settings.entries()) settings.push(await this.tuned(i));
    const { changes, today, chosen } = this.chosen();
    const sourced = await this.runs.limits();
    return {
      ...{ years: site.money.years, days: site.period.days, stepMin, limits: sourced },
      ...{ settings, today, chosen },
      brokenToday: brokenLimits(today, sourced.limits),
      brokenChosen: brokenLimits(chosen, sourced.limits),
      changes,
      calendarEntries: site.control.calendar.length,
      otherYears: await this.runs.inOtherYears(this.best.point),
      effort: {
        fineRuns: this.runs.fine,
        coarseRuns: this.runs.coarse,
        trials: this.trials,
        points: this.space.lengths.reduce((product, length) => product * length, 1),
        ranOut: this.tries.runs >= this.tries.most,
      },
    };
  }

  /** A setting with all its values tried, the others as chosen. */
  private async tuned(i: number): Promise<TunedSetting> {
    const { rule, season, values, today } = this.settings[i];
    const chosen = this.best.point[i];
    const tried = await this.runs.tried(this.along(i));
    const { limits } = await this.runs.limits();
    const curve = values.map((_, place) => {
      const one = tried.find(({ point }) => point[i] === place);
      const broken = one ? brokenLimits(this.runs.outcomeOf(one.point), limits) : [];
      return { cost: one?.score.cost ?? null, broken };
    });
    const top = bandTop(this.runs.outcomeOf(this.best.point));
    return { rule, season, values, today, chosen, curve, flat: flatStretch(curve, chosen, top) };
  }

  /** All values of one setting, the others as in the best. */
  private along(i: number): Point[] {
    const { point } = this.best;
    const points = this.settings[i].values.map((_, place) => point.map((at, j) => (j === i ? place : at)));
    return points.filter(this.space.isAllowed);
  }

  /** The coarsest step that ranks a sample as the fine one does; null: none does. */
  private async coarseStep(tried: readonly Tried[]): Promise<number | null> {
    if (tried.length < TRIAL_POINTS) return null;
    this.tell('whether a coarse step ranks them alike');
    const points = tried.map(({ point }) => point);
    const fine = tried.map(({ score }) => score);
    this.trials.push(
      ...(await tryCoarse(fine, this.request.stepMin, (stepMin) => this.runs.coarseScores(points, stepMin))),
    );
    return this.trials.find(({ isUsed }) => isUsed)?.stepMin ?? null;
  }

  /** The best of many points at a coarse step, half as many as may be looked at finely. */
  private async survivors(stepMin: number, count: number): Promise<Point[]> {
    this.tell(`many sets at ${stepMin} min`);
    const points = spreadOver(this.space, COARSE_TIMES * count);
    const scores = await this.runs.coarseScores(points, stepMin);
    return points
      .map((point, i) => ({ point, score: scores[i] }))
      .sort((a, b) => byScore(a.score, b.score))
      .slice(0, Math.ceil(count / 2))
      .map(({ point }) => point);
  }

  private tell(doing: string): void {
    this.request.onProgress?.(doing, this.runs.fine + this.runs.coarse);
  }
}
