/**
 * Present worth of 1 paid after n years: (1 + d)^−n.
 * Source: Fuller and Petersen, Life-Cycle Costing Manual, NIST Handbook 135.
 */
export function singlePresentValue(rate: number, years: number): number {
  return (1 + rate) ** -years;
}

/** Present worth of 1 paid every year for n years: (1 − (1 + d)^−n)/d. Source: NIST Handbook 135. */
export function uniformPresentValue(rate: number, years: number): number {
  return rate === 0 ? years : (1 - (1 + rate) ** -years) / rate;
}

/** The same for a payment that rises by `rise` a year from the first year on. Source: NIST Handbook 135, UPV*. */
export function risingPresentValue(rate: number, rise: number, years: number): number {
  if (rate === rise) return years;
  return ((1 + rise) / (rate - rise)) * (1 - ((1 + rise) / (1 + rate)) ** years);
}

/** Yearly payment worth 1 today. Source: any text of engineering economy. */
export function capitalRecoveryFactor(rate: number, years: number): number {
  return 1 / uniformPresentValue(rate, years);
}

/** Real rate from a nominal rate and inflation: (1 + nominal)/(1 + inflation) − 1. */
export function realRate(nominal: number, inflation: number): number {
  return (1 + nominal) / (1 + inflation) - 1;
}

/** Present value of flows at the ends of years 0, 1, 2 ... */
export function netPresentValue(rate: number, flows: readonly number[]): number {
  return flows.reduce((sum, flow, year) => sum + flow * singlePresentValue(rate, year), 0);
}
