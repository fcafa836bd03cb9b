import type { SiteChanges } from './apply-changes.ts';
import { changedSite } from './apply-changes.ts';
import { typicalCooler, typicalHeater } from './climate-sizes.ts';
import { coldestWeek } from './coldest-week.ts';
import { type Again, simulateAlternative } from './run-study.ts';
import type { Site } from './site-schema.ts';
import type { AlternativeResult } from './study.ts';

export type ClimateVariant =
  | 'as it is'
  | 'no heater'
  | 'with heater'
  | 'no cooler'
  | 'with cooler'
  | 'half the heat loss'
  | 'full shade';

/** What the cabinet's climate does to the site with one thing about it changed. */
export interface ClimateRow {
  variant: ClimateVariant;
  changes: SiteChanges;
  climateKwh: number;
  heaterKwh: number;
  coolerKwh: number;
  frostKwh: number;
  deratedKwh: number;
  unservedKwh: number;
  runH: number;
  starts: number;
  fuelL: number;
  /** mean of the cabinets, after the first two days, in which a cabinet comes from the outside temperature that it starts at */
  coldestCellC: number;
  hottestCellC: number;
  batteryLifeYears: number | null;
  /** what the change itself costs to build is not in it */
  lifeCycleCost: number;
}

/** One run of the coldest week, by steps of that week. */
export interface ColdWeekRun {
  variant: ClimateVariant;
  /** at the end of each step [°C] */
  cellC: Float64Array;
  /** means of each step [kW] */
  chargeKw: Float64Array;
  generatorKw: Float64Array;
  /** engine running in that week */
  runH: number;
}

/** Variants of a cabinet side by side, and its coldest week with and without a heater. */
export interface ClimateDecision {
  /** the first is the alternative as it is */
  rows: ClimateRow[];
  /** null for periods shorter than a week, without a battery, or where no cell would ever need a heater */
  coldWeek: { fromStep: number; toStep: number; airC: Float64Array; runs: ColdWeekRun[] } | null;
}

/**
 * Runs an alternative again without what its cabinets have and with what they have not, from the start of the period.
 * Heat loss is halved on both paths to the outside; a heater or cooler that is not there gets a typical size.
 * @param index place of the alternative in the study
 * @returns null for a site without a cabinet
 */
export function climateDecision(
  result: AlternativeResult,
  index: number,
  again: Again,
): ClimateDecision | null {
  const alternative = again.alternatives[index];
  const { cabinet } = alternative.site;
  if (!cabinet) return null;
  const rows = [rowOf('as it is', {}, result)];
  const week = alternative.site.battery ? coldestWeek(result.inputs) : null;
  const runs = week ? [weekOf('as it is', result, week)] : [];
  for (const [variant, changes] of variantsOf(alternative.site, result)) {
    const site = changedSite(alternative.site, changes);
    const other = simulateAlternative({ ...alternative, site }, again.maker)?.result;
    if (!other) throw new Error(`no series for a cabinet ${variant}`);
    rows.push(rowOf(variant, changes, other));
    if (week && (variant === 'no heater' || variant === 'with heater'))
      runs.push(weekOf(variant, other, week));
  }
  const airC = week && result.inputs.airC?.slice(week.fromStep, week.toStep);
  return { rows, coldWeek: week && airC && runs.length === 2 ? { ...week, airC, runs } : null };
}

function variantsOf(site: Site, result: AlternativeResult): [ClimateVariant, SiteChanges][] {
  const { cabinet } = site;
  if (!cabinet) return [];
  const variants: [ClimateVariant, SiteChanges][] = [];
  const without = (part: 'heater' | 'cooler') =>
    changesOf(site, (each) => (each[part] ? { [part]: null } : {}));
  if (anyOf(without('heater'))) variants.push(['no heater', without('heater')]);
  else {
    const heaters = changesOf(site, (each) => {
      const heater = typicalHeater(site, result, each);
      return heater ? { heater } : {};
    });
    if (anyOf(heaters)) variants.push(['with heater', heaters]);
  }
  if (anyOf(without('cooler'))) variants.push(['no cooler', without('cooler')]);
  else {
    const cooler = typicalCooler(site, result);
    if (cooler) variants.push(['with cooler', { 'cabinet.cooler': cooler }]);
  }
  variants.push([
    'half the heat loss',
    changesOf(site, (each) => ({
      airToOutsideWPerK: each.airToOutsideWPerK / 2,
      batteryToOutsideWPerK: each.batteryToOutsideWPerK / 2,
    })),
  ]);
  const shade = changesOf(site, ({ sunM2 }) => (sunM2 > 0 ? { sunM2: 0 } : {}));
  if (anyOf(shade)) variants.push(['full shade', shade]);
  return variants;
}

type Cabinet = NonNullable<Site['cabinet']>;

/** What is changed about each cabinet, the further ones by their place in the list. */
function changesOf(
  { cabinet, batteryCabinets }: Site,
  change: (cabinet: Cabinet) => Partial<Cabinet>,
): SiteChanges {
  const places: [string, Cabinet | null][] = [
    ['cabinet', cabinet],
    ...batteryCabinets.map((each, i): [string, Cabinet] => [`batteryCabinets.${i}`, each]),
  ];
  const changes = places.flatMap(([path, each]) =>
    each ? Object.entries(change(each)).map(([key, to]) => [`${path}.${key}`, to]) : [],
  );
  return Object.fromEntries(changes);
}

function anyOf(changes: SiteChanges): boolean {
  return Object.keys(changes).length > 0;
}

function rowOf(variant: ClimateVariant, changes: SiteChanges, result: AlternativeResult): ClimateRow {
  const { totals } = result.ledger;
  const { climateKwh, heaterKwh, coolerKwh, frostKwh, deratedKwh } = totals;
  const { unservedKwh, runH, starts, fuelL } = totals;
  const { coldestCellC, hottestCellC } = cellExtremes(result);
  return {
    ...{ variant, changes, climateKwh, heaterKwh, coolerKwh, frostKwh, deratedKwh },
    ...{ unservedKwh, runH, starts, fuelL, coldestCellC, hottestCellC },
    batteryLifeYears: result.batteryLifeYears,
    lifeCycleCost: result.money.lifeCycleCost,
  };
}

/** Runs shorter than four days are looked at whole. */
function cellExtremes({ columns, inputs }: AlternativeResult) {
  const perDay = 1440 / inputs.stepMin;
  const cellC = columns.cellC.subarray(inputs.count >= 4 * perDay ? 2 * perDay : 0);
  return {
    coldestCellC: cellC.reduce((least, value) => Math.min(least, value), Number.POSITIVE_INFINITY),
    hottestCellC: cellC.reduce((most, value) => Math.max(most, value), Number.NEGATIVE_INFINITY),
  };
}

function weekOf(
  variant: ClimateVariant,
  { columns, ledger }: AlternativeResult,
  { fromStep, toStep }: { fromStep: number; toStep: number },
): ColdWeekRun {
  const [fromH, toH] = [fromStep, toStep].map((step) => (step * ledger.stepMin) / 60);
  const within = ledger.runs.map(({ startH, endH }) => Math.min(endH, toH) - Math.max(startH, fromH));
  return {
    variant,
    cellC: columns.cellC.slice(fromStep, toStep),
    chargeKw: columns.batteryKw.slice(fromStep, toStep).map((kw) => Math.max(0, kw)),
    generatorKw: columns.generatorKw.slice(fromStep, toStep),
    runH: within.reduce((sum, hours) => sum + Math.max(0, hours), 0),
  };
}
