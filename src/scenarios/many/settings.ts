import type { SiteChanges } from '../apply-changes.ts';
import type { Site } from '../site-schema.ts';
import type { Point } from './lattice-search.ts';
import { valuesOf } from './setting-values.ts';

/** A rule of the generator that has a number. */
export type Rule =
  | 'startSoc'
  | 'stopSoc'
  | 'chargeDelayMin'
  | 'chargeTargetKw'
  | 'peakStartKw'
  | 'peakStopKw'
  | 'peakDelayS'
  | 'peakHoldMin'
  | 'minRunMin';

/** The order in which rules are searched and shown. */
export const RULES: readonly Rule[] = [
  'startSoc',
  'stopSoc',
  'chargeDelayMin',
  'chargeTargetKw',
  'minRunMin',
  'peakStartKw',
  'peakStopKw',
  'peakDelayS',
  'peakHoldMin',
];

/** Rules that a calendar can change by the season. */
const SEASONAL: readonly Rule[] = ['startSoc', 'stopSoc', 'peakStartKw', 'peakStopKw'];

/** Months for which thresholds of their own are looked for. */
export interface Season {
  name: string;
  /** 1 to 12 */
  months: readonly number[];
}

export interface Setting {
  rule: Rule;
  /** null: all the year, or what of it has no season of its own */
  season: Season | null;
  /** rising; null, at the end, is "no limit" (peak start: only what the inverters cannot carry) */
  values: readonly (number | null)[];
  /** place of today's value among them */
  today: number;
}

const PATHS: Record<Rule, string> = {
  startSoc: 'control.charge.startSoc',
  stopSoc: 'control.charge.stopSoc',
  chargeDelayMin: 'control.charge.delayMin',
  chargeTargetKw: 'control.chargeTargetKw',
  peakStartKw: 'control.peak.startKw',
  peakStopKw: 'control.peak.stopKw',
  peakDelayS: 'control.peak.delayS',
  peakHoldMin: 'control.peak.holdMin',
  minRunMin: 'control.minRunMin',
};

/**
 * The settings of a site's generator, each with the values to look among; today's value is always one of them.
 * @param only these rules; null: all that the site has
 */
export function settingsOf(site: Site, only: readonly Rule[] | null, seasons: readonly Season[]): Setting[] {
  const chosen = RULES.filter((rule) => hasRule(site, rule) && (only === null || only.includes(rule)));
  const seasonal = chosen.filter((rule) => SEASONAL.includes(rule));
  return [
    ...chosen.map((rule) => settingOf(site, rule, null)),
    ...seasons.flatMap((season) => seasonal.map((rule) => settingOf(site, rule, season))),
  ];
}

function hasRule({ control, generator }: Site, rule: Rule): boolean {
  const { charge, peak } = control;
  if (generator === null) return false;
  if (['startSoc', 'stopSoc', 'chargeDelayMin'].includes(rule)) return charge !== null;
  if (rule.startsWith('peak')) return peak !== null;
  return charge !== null || peak !== null;
}

function settingOf(site: Site, rule: Rule, season: Season | null): Setting {
  const value = todaysValue(site, rule);
  const rank = (one: number | null) => one ?? Number.POSITIVE_INFINITY;
  const values = [...new Set([...valuesOf(site, rule), value])].sort((a, b) => (rank(a) < rank(b) ? -1 : 1));
  return { rule, season, values, today: values.indexOf(value) };
}

/** What a rule is set to today; null: no limit, or no such rule. */
export function todaysValue({ control }: Site, rule: Rule): number | null {
  const { charge, peak } = control;
  const values: Record<Rule, number | null | undefined> = {
    startSoc: charge?.startSoc,
    stopSoc: charge?.stopSoc,
    chargeDelayMin: charge?.delayMin,
    chargeTargetKw: control.chargeTargetKw,
    peakStartKw: peak?.startKw,
    peakStopKw: peak?.stopKw,
    peakDelayS: peak?.delayS,
    peakHoldMin: peak?.holdMin,
    minRunMin: control.minRunMin,
  };
  return values[rule] ?? null;
}

/** The values of a point, one a setting. */
export function valuesAt(settings: readonly Setting[], point: Point): (number | null)[] {
  return settings.map(({ values }, i) => values[point[i]]);
}

/** A point as changes of the site: only what differs from today; a season's values as the first entries of the calendar. */
export function changesAt(site: Site, settings: readonly Setting[], point: Point): SiteChanges {
  const values = valuesAt(settings, point);
  const changes: SiteChanges = {};
  const entries = new Map<Season, Record<string, unknown>>();
  for (const [i, { rule, season, today }] of settings.entries()) {
    if (season === null) {
      if (point[i] !== today) changes[PATHS[rule]] = values[i];
      continue;
    }
    const weekdays = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'];
    const entry = entries.get(season) ?? { name: season.name, months: [...season.months], weekdays };
    entries.set(season, { ...entry, [rule]: values[i] ?? NEVER_KW });
  }
  if (entries.size > 0) changes['control.calendar'] = [...entries.values(), ...site.control.calendar];
  return changes;
}

/** A calendar has no "only what the inverters cannot carry": a threshold that no load reaches says the same. */
const NEVER_KW = 10_000;
