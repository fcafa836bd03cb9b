import type { Ledger, Totals } from '../sim/ledger.ts';
import { countReached, lifeCycleOf, type UseOfYear } from './cash-flow.ts';
import type { Money } from './money.ts';
import type { Site } from './site-schema.ts';

/** kg CO2 a litre of diesel: US EPA emission factors hub, 10.21 kg a gallon (second hand). */
const CO2_KG_PER_L = 2.697;

/** Where neither a life nor wear is stated: common practice for lithium iron phosphate [years]. */
export const USUAL_BATTERY_YEARS = 12;

/**
 * Money of an alternative over the study, the simulated period scaled to a year and repeated (see `lifeCycleOf`).
 * The battery is replaced at its stated life, or else when its wear has used it up, and what is left of the last one
 * at the end is credited in proportion (straight line).
 * @param wornOutYears years to the end of the battery's life by its wear; null where that is not known
 */
export function moneyOf(
  site: Site,
  capitalDifference: number,
  ledger: Ledger,
  wornOutYears: number | null,
): Money {
  const { money } = site;
  const periodYears = (ledger.count * ledger.stepMin) / 60 / 8760;
  const use = {
    fuelL: ledger.totals.fuelL / periodYears,
    runH: ledger.totals.runH / periodYears,
    servedKwh: ledger.totals.servedKwh / periodYears,
    unservedKwh: ledger.totals.unservedKwh / periodYears,
    visits: ledger.totals.visits / periodYears,
  };
  const capital = money.capital + capitalDifference;
  const bank = bankPrice(site);
  const life = money.batteryYears ?? wornOutYears ?? USUAL_BATTERY_YEARS;
  const uses = Array.from({ length: money.years }, (_, i): UseOfYear => {
    const batteries = bank > 0 && i + 1 < money.years ? countReached(i, 1, life) : 0;
    return { ...use, batteries };
  });
  const first = runningParts(site, use);
  return {
    ...lifeCycleOf(site, capital, uses, bank, worthLeftFrac(uses, life)),
    years: money.years,
    discountRate: money.discountRate,
    capital,
    fuelFirstYear: first.fuel,
    serviceFirstYear: first.service,
    unservedFirstYear: first.unserved,
    visitsFirstYear: first.visits,
    runningFirstYear: sumOf(first),
    runningByMonth: ledger.periods.map((month) => sumOf(runningParts(site, month))),
    co2FirstYearKg: use.fuelL * CO2_KG_PER_L,
  };
}

/** What a new battery bank costs. */
export function bankPrice({ battery, money }: Pick<Site, 'battery' | 'money'>): number {
  return (battery?.modules ?? 0) * money.batteryPerModule;
}

type Running = Pick<Totals, 'fuelL' | 'runH' | 'unservedKwh' | 'visits'>;

/** What running costs, and what its trouble costs. */
function runningParts({ money }: Site, { fuelL, runH, unservedKwh, visits }: Running) {
  return {
    fuel: fuelL * money.fuelPerL,
    service: (runH / money.serviceEveryH) * money.serviceCost,
    unserved: unservedKwh * money.unservedPerKwh,
    visits: visits * money.visitCost,
  };
}

function sumOf({ fuel, service, unserved, visits }: ReturnType<typeof runningParts>): number {
  return fuel + service + unserved + visits;
}

/** Share of its life that the last bank (the first one too, where it outlives the study) has left at the end. */
function worthLeftFrac(uses: readonly UseOfYear[], life: number): number {
  const age = uses.length - life * uses.reduce((sum, { batteries }) => sum + batteries, 0);
  return Math.max(0, life - age) / life;
}
