import type { LifeCycle, YearOfMoney } from './money.ts';
import { singlePresentValue } from './present-value.ts';
import type { Site } from './site-schema.ts';

/** What of a year the money depends on. */
export interface UseOfYear {
  fuelL: number;
  runH: number;
  servedKwh: number;
  unservedKwh: number;
  /** persons who came because they were called */
  visits: number;
  /** banks bought in it */
  batteries: number;
}

/**
 * Money over the study's years, in constant money. Service is paid by the hour run (a visit's cost over its
 * interval); an overhaul falls in the year in which its hours are reached. Payments of a year fall at its end.
 * @param uses a year each, the first first
 * @param bank price of a battery bank; @param worthLeftFrac what the last one is worth at the end, as a share of it
 * Terms: ASTM E917 and AS/NZS 4536 (from memory); levelised cost by Short, Packey and Holt, NREL/TP-462-5173,
 * 1995 (from memory): life-cycle cost over discounted energy served.
 */
export function lifeCycleOf(
  { money }: Pick<Site, 'money'>,
  capital: number,
  uses: readonly UseOfYear[],
  bank: number,
  worthLeftFrac: number,
): LifeCycle {
  const cashFlow = [yearOf(0, money.discountRate, { capital })];
  let runH = 0;
  let servedWorth = 0;
  for (const [i, use] of uses.entries()) {
    const year = i + 1;
    const overhauls = countReached(runH, use.runH, money.overhaulEveryH);
    runH += use.runH;
    servedWorth += use.servedKwh * singlePresentValue(money.discountRate, year);
    const parts = {
      fuel: use.fuelL * money.fuelPerL * (1 + money.fuelEscalation) ** (year - 1),
      service: (use.runH / money.serviceEveryH) * money.serviceCost,
      unserved: use.unservedKwh * money.unservedPerKwh,
      visits: use.visits * money.visitCost,
      overhaul: overhauls * money.overhaulCost,
      battery: use.batteries * bank,
      residual: year === uses.length && bank * worthLeftFrac > 0 ? -bank * worthLeftFrac : 0,
    };
    cashFlow.push(yearOf(year, money.discountRate, parts));
  }
  const lifeCycleCost = cashFlow.reduce((sum, year) => sum + year.presentValue, 0);
  return {
    cashFlow,
    lifeCycleCost,
    levelisedCostPerKwh: servedWorth > 0 ? lifeCycleCost / servedWorth : null,
    batteryReplacedInYears: cashFlow.filter((year) => year.battery > 0).map((year) => year.year),
    overhaulsInYears: cashFlow.filter((year) => year.overhaul > 0).map((year) => year.year),
  };
}

/** How often a running total passes a multiple of its interval while it grows. */
export function countReached(before: number, growth: number, interval: number): number {
  const reached = (total: number) => Math.floor(total / interval + 1e-9);
  return reached(before + growth) - reached(before);
}

function yearOf(year: number, rate: number, parts: Partial<YearOfMoney>): YearOfMoney {
  const none = {
    capital: 0,
    fuel: 0,
    service: 0,
    unserved: 0,
    visits: 0,
    overhaul: 0,
    battery: 0,
    residual: 0,
  };
  const flow = { year, ...none, ...parts };
  const running = flow.fuel + flow.service + flow.unserved + flow.visits;
  const total = flow.capital + running + flow.overhaul + flow.battery + flow.residual;
  return { ...flow, total, presentValue: total * singlePresentValue(rate, year) };
}
