import { CLASSES } from '../design-checks/generator-duty.ts';
import type { Site } from '../site-schema.ts';
import type { YearOutcome } from './year-outcome.ts';

/** What a variant must keep to, by the year; null: no limit. */
export interface Limits {
  unservedKwh: number | null;
  startsADay: number | null;
  runHours: number | null;
  nightHours: number | null;
  /** deepest discharge, 1 less the state of charge that must be left */
  depth: number | null;
}

export type LimitKey = keyof Limits;

/** Where a limit comes from, so that it can be said. */
export type LimitSource = 'stated' | 'today' | 'design' | 'rating class';

export interface SourcedLimits {
  limits: Limits;
  sources: Partial<Record<LimitKey, LimitSource>>;
}

/** What somebody asks for in place of the site file's. */
export type AskedLimits = Partial<Site['limits']>;

/**
 * The limits of a search.
 * @param today outcome of the site as filed at the step of what will be held against them, for those that are not
 *   stated
 */
export function limitsOf(site: Site, asked: AskedLimits, today: YearOutcome): SourcedLimits {
  const stated = { ...site.limits, ...asked };
  const { unservedKwh, startsADay, runHours, nightHours, leastSoc } = stated;
  const usual = site.design.mostStartsPerDay;
  const byClass = site.generator?.ratingClass ? CLASSES[site.generator.ratingClass].hours : null;
  const now = measured(today);
  const sources: SourcedLimits['sources'] = {
    unservedKwh: unservedKwh === undefined ? 'today' : 'stated',
    startsADay: startsADay === undefined ? (now.startsADay > usual ? 'today' : 'design') : 'stated',
  };
  if (runHours !== undefined) sources.runHours = 'stated';
  else if (byClass !== null) sources.runHours = 'rating class';
  if (nightHours !== undefined) sources.nightHours = 'stated';
  if (leastSoc !== undefined) sources.depth = 'stated';
  return {
    limits: {
      unservedKwh: unservedKwh ?? now.unservedKwh,
      startsADay: startsADay ?? Math.max(usual, now.startsADay),
      runHours: runHours ?? byClass,
      nightHours: nightHours ?? null,
      depth: leastSoc === undefined ? null : 1 - leastSoc,
    },
    sources,
  };
}

/** The figures that limits are held against. */
export function measured(outcome: YearOutcome): Record<LimitKey, number> {
  return {
    unservedKwh: outcome.unservedKwh,
    startsADay: outcome.mostStartsADay,
    runHours: outcome.runH,
    nightHours: outcome.nightH,
    depth: outcome.minSoc === null ? 0 : 1 - outcome.minSoc,
  };
}

/** Limits that an outcome breaks. */
export function brokenLimits(outcome: YearOutcome, limits: Limits): LimitKey[] {
  return (Object.keys(limits) as LimitKey[]).filter((key) => excess(measured(outcome)[key], limits[key]) > 0);
}

/** How far beyond its limits an outcome is: shares of the limits, added up; 0: all are kept. */
export function excessOf(outcome: YearOutcome, limits: Limits): number {
  const figures = measured(outcome);
  return (Object.keys(limits) as LimitKey[]).reduce((sum, key) => sum + excess(figures[key], limits[key]), 0);
}

/** Sums of a year carry rounding: a trace beyond a limit is none. */
const TRACE = 1e-9;

function excess(value: number, limit: number | null): number {
  if (limit === null || value <= limit + TRACE * Math.max(1, limit)) return 0;
  // a limit of nothing is measured in whole units
  return (value - limit) / Math.max(1, limit);
}
