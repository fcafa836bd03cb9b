import type { Money, YearOfMoney } from '../../src/scenarios/money.ts';
import type { Ledger, Totals } from '../../src/sim/ledger.ts';

const YEARS = 20;
const RATE = 0.05;
const FUEL_PRICE = 2.1;
const SERVICE_PER_H = 3.5;
const BATTERY_PER_KWH = 420;

/** Invented prices, plain arithmetic: fuel and service every year, one battery in year 12. */
export function plainMoney(ledger: Ledger, capital: number, batteryKwh: number): Money {
  const fuel = ledger.totals.fuelL * FUEL_PRICE;
  const service = ledger.totals.runH * SERVICE_PER_H;
  const cashFlow = Array.from({ length: YEARS + 1 }, (_, year) =>
    yearOf(
      year,
      year === 0 ? capital : 0,
      year === 0 ? 0 : fuel,
      year === 0 ? 0 : service,
      year === 12 ? batteryKwh * BATTERY_PER_KWH : 0,
    ),
  );
  const annuity = cashFlow.reduce((sum, { year }) => sum + (year > 0 ? (1 + RATE) ** -year : 0), 0);
  const lifeCycleCost = cashFlow.reduce((sum, { presentValue }) => sum + presentValue, 0);
  return {
    years: YEARS,
    discountRate: RATE,
    capital,
    fuelFirstYear: fuel,
    serviceFirstYear: service,
    unservedFirstYear: 0,
    visitsFirstYear: 0,
    runningFirstYear: fuel + service,
    runningByMonth: ledger.periods.map(
      (month: Totals) => month.fuelL * FUEL_PRICE + month.runH * SERVICE_PER_H,
    ),
    cashFlow,
    lifeCycleCost,
    levelisedCostPerKwh:
      ledger.totals.servedKwh > 1e-6 ? lifeCycleCost / (ledger.totals.servedKwh * annuity) : null,
    co2FirstYearKg: ledger.totals.fuelL * 2.68,
    batteryReplacedInYears: batteryKwh > 0 ? [12] : [],
    overhaulsInYears: [],
  };
}

function yearOf(year: number, capital: number, fuel: number, service: number, battery: number): YearOfMoney {
  const total = capital + fuel + service + battery;
  return {
    year,
    capital,
    fuel,
    service,
    unserved: 0,
    visits: 0,
    overhaul: 0,
    battery,
    residual: 0,
    total,
    presentValue: total * (1 + RATE) ** -year,
  };
}
