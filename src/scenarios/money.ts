/** What is paid over the study's years, in constant money of today. */
export interface LifeCycle {
  /** what is paid in each year, year 0 first */
  cashFlow: YearOfMoney[];
  /** present value of everything */
  lifeCycleCost: number;
  /** life-cycle cost per discounted kWh served; null when nothing was served */
  levelisedCostPerKwh: number | null;
  /** years at which the battery is replaced */
  batteryReplacedInYears: number[];
  overhaulsInYears: number[];
}

/** Money of one alternative, its first year repeated. */
export interface Money extends LifeCycle {
  years: number;
  /** real discount rate, a fraction a year */
  discountRate: number;
  /** paid at the start */
  capital: number;
  /** first year: fuel, service, load unserved and call-outs where they have a price, and all of them */
  fuelFirstYear: number;
  serviceFirstYear: number;
  unservedFirstYear: number;
  visitsFirstYear: number;
  runningFirstYear: number;
  /** first-year running cost of each month */
  runningByMonth: number[];
  /** CO2 of the fuel burnt in the first year [kg] */
  co2FirstYearKg: number;
}

export interface YearOfMoney {
  year: number;
  capital: number;
  fuel: number;
  service: number;
  /** load unserved, and persons who came because they were called */
  unserved: number;
  visits: number;
  overhaul: number;
  battery: number;
  /** what the replaced battery is still worth at the end, negative */
  residual: number;
  total: number;
  presentValue: number;
}
