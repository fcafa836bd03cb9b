import type { Ledger, Totals } from '../sim/ledger.ts';
import type { Money, YearOfMoney } from './money.ts';
import { singlePresentValue, uniformPresentValue } from './present-value.ts';
import type { Site } from './site-schema.ts';

/** kg CO2 a litre of diesel: US EPA emission factors hub, 10.21 kg a gallon (second hand). */
const CO2_KG_PER_L = 2.697;

/** Where neither a life nor wear is stated: common practice for lithium iron phosphate [years]. */
const USUAL_BATTERY_YEARS = 12;

/** What of a ledger the money depends on, by the year. */
interface YearlyUse {
  fuelL: number;
  runH: number;
  servedKwh: number;
}

/**
 * Money of an alternative over the study, the simulated period scaled to a year and repeated, in constant money.
 * Service is paid by the hour run (a visit's cost over its interval); an overhaul falls in the year in which its
 * hours are reached; the battery is replaced at its stated life, or else when its wear has used it up, and what is left of the last one at the end is
 * credited in proportion (straight line). Payments of a year fall at its end.
 * @param wornOutYears years to the end of the battery's life by its wear; null where that is not known
 * Terms: ASTM E917 and AS/NZS 4536 (from memory); levelised cost by Short, Packey and Holt, NREL/TP-462-5173,
 * 1995 (from memory): life-cycle cost over discounted energy served.
 */
export function moneyOf(
  site: Site,
  capitalDifference: number,
  ledger: Ledger,
  wornOutYears: number | null,
): Money {
  const { money } = site;
  const periodYears = (ledger.count * ledger.stepMin) / 60 / 8760;
  const use: YearlyUse = {
    fuelL: ledger.totals.fuelL / periodYears,
    runH: ledger.totals.runH / periodYears,
    servedKwh: ledger.totals.servedKwh / periodYears,
  };
  const capital = money.capital + capitalDifference;
  const cashFlow = yearsOfMoney(
    site,
    capital,
    use,
    money.batteryYears ?? wornOutYears ?? USUAL_BATTERY_YEARS,
  );
  const lifeCycleCost = cashFlow.reduce((sum, year) => sum + year.presentValue, 0);
  const servedWorth = use.servedKwh * uniformPresentValue(money.discountRate, money.years);
  const fuelFirstYear = use.fuelL * money.fuelPerL;
  const serviceFirstYear = (use.runH / money.serviceEveryH) * money.serviceCost;
  return {
    years: money.years,
    discountRate: money.discountRate,
    capital,
    fuelFirstYear,
    serviceFirstYear,
    runningFirstYear: fuelFirstYear + serviceFirstYear,
    runningByMonth: ledger.periods.map((month) => runningCost(site, month)),
    cashFlow,
    lifeCycleCost,
    levelisedCostPerKwh: servedWorth > 0 ? lifeCycleCost / servedWorth : null,
    co2FirstYearKg: use.fuelL * CO2_KG_PER_L,
    batteryReplacedInYears: cashFlow.filter((year) => year.battery > 0).map((year) => year.year),
    overhaulsInYears: cashFlow.filter((year) => year.overhaul > 0).map((year) => year.year),
  };
}

function runningCost({ money }: Site, totals: Totals): number {
  return totals.fuelL * money.fuelPerL + (totals.runH / money.serviceEveryH) * money.serviceCost;
}

function yearsOfMoney(site: Site, capital: number, use: YearlyUse, batteryYears: number): YearOfMoney[] {
  const { money } = site;
  const bank = (site.battery?.modules ?? 0) * money.batteryPerModule;
  const flows = [yearOf(0, money.discountRate, { capital })];
  let replacements = 0;
  for (let year = 1; year <= money.years; year++) {
    const fuel = use.fuelL * money.fuelPerL * (1 + money.fuelEscalation) ** (year - 1);
    const service = (use.runH / money.serviceEveryH) * money.serviceCost;
    const overhauls = countReached(use.runH, year, money.overhaulEveryH);
    const due = bank > 0 && year < money.years ? countReached(1, year, batteryYears) : 0;
    replacements += due;
    const residual = year === money.years ? -residualOf(bank, money.years, batteryYears, replacements) : 0;
    const parts = { fuel, service, overhaul: overhauls * money.overhaulCost, battery: due * bank, residual };
    flows.push(yearOf(year, money.discountRate, parts));
  }
  return flows;
}

/** How often a running total passes a multiple of its interval in a year. */
function countReached(perYear: number, year: number, interval: number): number {
  const reached = (years: number) => Math.floor((perYear * years) / interval + 1e-9);
  return reached(year) - reached(year - 1);
}

/** What the last bank (the first one too, where it outlives the study) is still worth at the study's end. */
function residualOf(bank: number, years: number, life: number, replacements: number): number {
  const age = years - replacements * life;
  return (bank * Math.max(0, life - age)) / life;
}

function yearOf(year: number, rate: number, parts: Partial<YearOfMoney>): YearOfMoney {
  const flow = { year, capital: 0, fuel: 0, service: 0, overhaul: 0, battery: 0, residual: 0, ...parts };
  const total = flow.capital + flow.fuel + flow.service + flow.overhaul + flow.battery + flow.residual;
  return { ...flow, total, presentValue: total * singlePresentValue(rate, year) };
}
