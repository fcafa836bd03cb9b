import type { SiteRank } from '../../scenarios/visit/site-rank.ts';
import type { TankNow, Visit } from '../../scenarios/visit/visit.ts';
import { isKnown, type Known } from '../visit/estimate-words.ts';
import { isFaded } from '../visit/material.ts';
import { type Measure, measureOf } from '../visit/measure.ts';

/** A site that was visited. */
export interface Visited extends SiteRank {
  visit: Visit;
  measure: Measure | null;
}

/** A tank that lasts no longer than this is listed, and one that lasts no longer than the other comes first [days]: own choice. */
export const LISTED_DAYS = 30;
export const URGENT_DAYS = 14;

export interface Ranking {
  /** worst first */
  visited: Visited[];
  unread: SiteRank[];
  /** most litres a month above the promise first; those whose logs tell no litres after them */
  burning: { site: Visited; measure: Measure }[];
  /** fewest days first */
  drying: { site: Visited; tank: TankNow & { daysLeft: number } }[];
  /** least of the named capacity first; only where it is materially below it */
  fading: { site: Visited; known: Known & { designed: number } }[];
}

/** Who burns more than promised, who will run dry, whose battery fades, and all of them worst first. */
export function rankSites(ranks: readonly SiteRank[]): Ranking {
  const visited = ranks
    .filter((rank): rank is SiteRank & { visit: Visit } => rank.visit !== null)
    .map((rank): Visited => ({ ...rank, measure: measureOf(rank.visit) }))
    .sort((a, b) => tierOf(a) - tierOf(b) || more(b) - more(a) || byName(a, b));
  return {
    visited,
    unread: ranks.filter(({ visit }) => visit === null).sort(byName),
    burning: visited
      .flatMap((site) => (burnsMore(site) && site.measure ? [{ site, measure: site.measure }] : []))
      .sort(
        (a, b) =>
          order(a.measure) - order(b.measure) || more(b.site) - more(a.site) || byName(a.site, b.site),
      ),
    drying: visited
      .flatMap((site) => {
        const tank = dryingTank(site);
        return tank ? [{ site, tank }] : [];
      })
      .sort((a, b) => a.tank.daysLeft - b.tank.daysLeft || byName(a.site, b.site)),
    fading: visited
      .flatMap((site) => {
        const known = fadedBattery(site);
        return known ? [{ site, known }] : [];
      })
      .sort(
        (a, b) =>
          a.known.value / a.known.designed - b.known.value / b.known.designed || byName(a.site, b.site),
      ),
  };
}

/** 0: dry within a fortnight; 1: burns more than promised, its battery fades, or a fault is likely; 2: else not as designed; 3: as designed. */
function tierOf(site: Visited): number {
  const { tank, parts, comparison, faults } = site.visit;
  if (parts.generator && tank?.daysLeft != null && tank.daysLeft <= URGENT_DAYS) return 0;
  if (burnsMore(site) || faults.length > 0 || fadedBattery(site)) return 1;
  return comparison.asDesigned ? 3 : 2;
}

function burnsMore({ visit, measure }: Visited): boolean {
  if (measure === null || visit.comparison.asDesigned) return false;
  return Number(measure.ran.toFixed(measure.decimals)) > Number(measure.designed.toFixed(measure.decimals));
}

function dryingTank({ visit: { tank, parts } }: Visited): (TankNow & { daysLeft: number }) | null {
  if (!parts.generator || tank === null || tank.daysLeft === null || tank.daysLeft > LISTED_DAYS) return null;
  return { ...tank, daysLeft: tank.daysLeft };
}

/** The battery's capacity, where it is materially below the named; null elsewhere. */
export function fadedBattery({ visit }: Visited): (Known & { designed: number }) | null {
  const known = visit.estimates.filter(isKnown).find(({ key }) => key === 'usableKwh');
  return known && isFaded(known) ? known : null;
}

/** Above the promise by the month, in the measure's unit, nothing where it runs as designed; litres of different sites stand beside each other. */
function more({ measure, visit }: Visited): number {
  return measure === null || visit.comparison.asDesigned ? 0 : measure.ran - measure.designed;
}

const KINDS: Measure['kind'][] = ['litres', 'hours', 'kwh'];

function order({ kind }: Measure): number {
  return KINDS.indexOf(kind);
}

function byName(a: SiteRank, b: SiteRank): number {
  if (a.site !== b.site) return a.site < b.site ? -1 : 1;
  return a.file < b.file ? -1 : a.file > b.file ? 1 : 0;
}
