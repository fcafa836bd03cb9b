import { carryOn, type SiteState, type Stretch } from '../sim/carry-on.ts';
import { makeColumns, type StepColumns } from '../sim/columns.ts';
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
  const controls = controlsFromSite(site);
  const years: HorizonYear[] = [];
  let state: SiteState | null = null;
  let bank = newBank(site);
  let worth = 0;
  let runH = 0;
  let columns: StepColumns | null = null;
  for (let year = 1; year <= site.money.years; year++) {
    const weather = weatherOfYear(site, year);
    const { inputs, airAtStartC, acArrayShare } = make(siteWithWeather(site, weather));
    const plant = plantFromSite(site, airAtStartC, acArrayShare);
    columns ??= makeColumns(inputs.count);
    const startSoc: number =
      year === 1 ? (plant.battery?.initialSoc ?? 0) : columns.socFrac[inputs.count - 1];
    const growth = (1 + site.horizon.loadGrowth) ** (year - 1);
    const stretch: Stretch = carryOn(
      withWaitingLoad(bank ? wornPlant(plant, bank.wear) : plant, growth),
      controls,
      withLoad(inputs, growth),
      state,
      inputs,
      columns,
    );
    state = stretch.state;
    let battery: BatteryYear | null = null;
    if (bank) {
      const use = useOf(bank, startSoc, inputs.stepMin, columns);
      const after = bankAfterYear(bank, use, year < site.money.years);
      battery = batteryYear(bank, after, stretch, (plant.battery?.capacityKwh ?? 0) * bank.wear.capacityFrac);
      bank = after.bank;
      worth = worthLeftFrac(bank, use);
    }
    years.push({ year, weather, ...sumsOf(site, stretch, runH), battery });
    runH += stretch.totals.runH;
    yield years[years.length - 1];
  }
  return { years, worthLeftFrac: worth };
}

function useOf({ law }: Bank, startSoc: number, stepMin: number, columns: StepColumns): YearOfUse | null {
  return law && yearOfUse(law, startSoc, stepMin, columns);
}

function batteryYear(
  before: Bank,
  after: BankYear,
  { totals, extremes }: Stretch,
  capacityKwh: number,
): BatteryYear {
  return {
    startFrac: before.wear.capacityFrac,
    endFrac: after.bank.wear.capacityFrac,
    resistanceFrac: before.wear.resistanceFrac,
    minSoc: extremes.minSoc ?? 0,
    fullCycles: totals.dischargeKwh / capacityKwh,
    replacedAt: after.replacedAt,
    health: after.health,
  };
}

function sumsOf({ money }: Site, { totals }: Stretch, runHBefore: number) {
  const { loadKwh, servedKwh, unservedKwh, unservedH, shedKwh, fuelL, runH, starts, curtailedKwh, visits } =
    totals;
  return {
    ...{ loadKwh, servedKwh, unservedKwh, unservedH, shedKwh, fuelL, runH, starts, curtailedKwh, visits },
    serviceVisits: countReached(runHBefore, runH, money.serviceEveryH),
    overhauls: countReached(runHBefore, runH, money.overhaulEveryH),
  };
}
