import type { SiteState } from '../sim/carry-on.ts';
import { makeColumns, type StepColumns } from '../sim/columns.ts';
import type { Inputs } from '../sim/inputs.ts';
import type { YearOfUse } from '../sim/wear/fade.ts';
import { countReached } from './cash-flow.ts';
import { controlsFromSite } from './controls-from-site.ts';
import {
  type Bank,
  type BankYear,
  bankAfterYear,
  newBank,
  wornPlant,
  worthLeftFrac,
} from './horizon-battery.ts';
import type { BatteryYear, HorizonYear } from './horizon-result.ts';
import { type SumsOfSpan, spansOfYear, sumOfSpans } from './horizon-spans.ts';
import { siteWithWeather, weatherOfYear, withLoad, withWaitingLoad } from './horizon-weather.ts';
import type { SiteInputs } from './inputs-from-site.ts';
import { plantFromSite } from './plant-from-site.ts';
import type { Site } from './site-schema.ts';
import { yearOfUse } from './wear-from-site.ts';

/** All years of a site, and what its last battery is worth at their end, as a share of its price. */
export interface SimulatedYears {
  years: HorizonYear[];
  worthLeftFrac: number;
}

/** What one year is simulated under. */
export interface YearConditions {
  /** seed, file or number of its weather; null: that of the site as filed */
  weather: string | null;
  made: SiteInputs;
  /** every load as a multiple of that of the series */
  loadFactor: number;
  /** the site as it is in this year: its generator, tank and controls may differ from year to year, its battery not */
  site: Site;
}

/** One year that is simulated, and what it leaves behind. */
export interface YearDone {
  year: HorizonYear;
  /** the year's calendar months, where they are asked for; else the year */
  spans: SumsOfSpan[];
  unservedByCauseKwh: SumsOfSpan['unservedByCauseKwh'];
  /** what its battery would be worth at its end, of a new one, were it the study's last: none is bought in that one */
  worthAsLastFrac: number;
  /** its series, loads as grown */
  inputs: Inputs;
  /** its steps, until the next year is asked for */
  columns: StepColumns;
}

/**
 * Simulates the years of a site's study one after the other: each begins where the one before ended (state of charge,
 * temperatures, fuel, a generator run under way), with the battery as worn as it is by then, the load as grown, and
 * its own weather. Every year has the calendar of the first.
 * @param make the series of a site; its files are known to be sound
 * @returns told after each year; the generator's result at the end
 */
export function* simulateYears(
  site: Site,
  make: (site: Site) => SiteInputs,
): Generator<HorizonYear, SimulatedYears> {
  const asFiled = (year: number): YearConditions => {
    const weather = weatherOfYear(site, year);
    return { weather, made: make(siteWithWeather(site, weather)), loadFactor: growthBy(site, year), site };
  };
  const years: HorizonYear[] = [];
  let worth = 0;
  for (const done of yearsUnder(site, asFiled)) {
    years.push(done.year);
    worth = done.worthAsLastFrac;
    yield done.year;
  }
  return { years, worthLeftFrac: worth };
}

/** The load of a year as a multiple of the first. @param year from 1 */
export function growthBy({ horizon }: Pick<Site, 'horizon'>, year: number): number {
  return (1 + horizon.loadGrowth) ** (year - 1);
}

/**
 * Simulates years one after the other, each under conditions of its own.
 * @param site    whose battery it is, and for how many years
 * @param of      the conditions of a year, from 1
 * @param byMonth whether the sums of every calendar month are wanted
 */
export function* yearsUnder(
  site: Site,
  of: (year: number) => YearConditions,
  byMonth = false,
): Generator<YearDone, void> {
  let state: SiteState | null = null;
  let bank = newBank(site);
  let runH = 0;
  let columns: StepColumns | null = null;
  for (let year = 1; year <= site.money.years; year++) {
    const conditions = of(year);
    const { weather, made, loadFactor } = conditions;
    const inputs = withLoad(made.inputs, loadFactor);
    const plant = plantFromSite(conditions.site, made.airAtStartC, made.acArrayShare);
    columns ??= makeColumns(inputs.count);
    const startSoc: number =
      year === 1 ? (plant.battery?.initialSoc ?? 0) : columns.socFrac[inputs.count - 1];
    const run = spansOfYear(
      {
        plant: withWaitingLoad(bank ? wornPlant(plant, bank.wear) : plant, loadFactor),
        controls: controlsFromSite(conditions.site),
        inputs,
      },
      byMonth ? made.periodEnds : [inputs.count],
      state,
      columns,
    );
    state = run.state;
    const { dischargeKwh, unservedByCauseKwh, ...sums } = sumOfSpans(run.spans);
    let battery: BatteryYear | null = null;
    let worthAsLastFrac = 0;
    if (bank) {
      const use = useOf(bank, startSoc, inputs.stepMin, columns);
      const after = bankAfterYear(bank, use, year < site.money.years);
      worthAsLastFrac = worthLeftFrac(bankAfterYear(bank, use, false).bank, use);
      const capacityKwh = (plant.battery?.capacityKwh ?? 0) * bank.wear.capacityFrac;
      battery = batteryYear(bank, after, run.minSoc, dischargeKwh / capacityKwh);
      bank = after.bank;
    }
    const due = visitsDue(site, runH, sums.runH);
    runH += sums.runH;
    yield {
      year: { year, weather, ...sums, ...due, battery },
      ...{ spans: run.spans, unservedByCauseKwh, worthAsLastFrac, inputs, columns },
    };
  }
}

function useOf({ law }: Bank, startSoc: number, stepMin: number, columns: StepColumns): YearOfUse | null {
  return law && yearOfUse(law, startSoc, stepMin, columns);
}

function batteryYear(before: Bank, after: BankYear, minSoc: number, fullCycles: number): BatteryYear {
  return {
    startFrac: before.wear.capacityFrac,
    endFrac: after.bank.wear.capacityFrac,
    resistanceFrac: before.wear.resistanceFrac,
    minSoc,
    fullCycles,
    replacedAt: after.replacedAt,
    health: after.health,
  };
}

function visitsDue({ money }: Site, runHBefore: number, runH: number) {
  return {
    serviceVisits: countReached(runHBefore, runH, money.serviceEveryH),
    overhauls: countReached(runHBefore, runH, money.overhaulEveryH),
  };
}
