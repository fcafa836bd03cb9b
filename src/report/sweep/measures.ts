import type { Outcome } from '../../scenarios/many/outcome.ts';
import type { Sweep } from '../../scenarios/many/sweep.ts';
import { bareFigure, decimalsFor, type Kind, unitOf } from '../numbers.ts';

/** A number of an outcome as it is shown. */
export interface Measure {
  key: keyof Outcome;
  label: string;
  kind: Kind;
}

/** What a designer asks first; each has a map of its own. */
export const MAIN_MEASURES: readonly Measure[] = [
  { key: 'lifeCycleCost', label: 'Life-cycle cost', kind: 'money' },
  { key: 'fuelL', label: 'Fuel', kind: 'litres' },
  { key: 'starts', label: 'Generator starts', kind: 'count' },
  { key: 'unservedKwh', label: 'Unserved energy', kind: 'kwh' },
];

/** Everything, for the table of the best beside the site as filed. */
const MEASURES: readonly Measure[] = [
  ...MAIN_MEASURES.slice(0, 1),
  { key: 'capital', label: 'Capital', kind: 'money' },
  { key: 'runningFirstYear', label: 'Fuel and service, first year', kind: 'money' },
  { key: 'levelised', label: 'Levelised cost', kind: 'moneyPerKwh' },
  ...MAIN_MEASURES.slice(1, 2),
  { key: 'runH', label: 'Generator runs', kind: 'hours' },
  ...MAIN_MEASURES.slice(2, 3),
  { key: 'mostStartsADay', label: 'Most starts in a day', kind: 'count' },
  { key: 'lowLoadH', label: 'Below 30 % load', kind: 'hours' },
  { key: 'nightH', label: 'Runs at night', kind: 'hours' },
  ...MAIN_MEASURES.slice(3),
  { key: 'unservedH', label: 'With load unserved', kind: 'hours' },
  { key: 'outages', label: 'Outages', kind: 'count' },
  { key: 'curtailedKwh', label: 'Array energy not used', kind: 'kwh' },
  { key: 'minSoc', label: 'Lowest state of charge', kind: 'share' },
  { key: 'batteryYears', label: 'Battery lasts', kind: 'years' },
  { key: 'visits', label: 'Persons called out', kind: 'count' },
  { key: 'co2Kg', label: 'CO₂ of the fuel, first year', kind: 'kg' },
];

/** A row of the table: the figure of several outcomes side by side, and its unit. */
export function measureRow(
  { key, label, kind }: Measure,
  outcomes: readonly Outcome[],
  { site }: Sweep,
): { label: string; unit: string; texts: string[] } {
  const values = outcomes.map((outcome) => outcome[key]);
  const decimals = decimalsFor(kind, values);
  return {
    label,
    unit: unitOf(kind, site.currency),
    texts: values.map((value) => bareFigure(kind, value, decimals)),
  };
}

/** Measures that mean something at the site: that one of its variants has at all. */
export function measuresOf({ cells, filed }: Sweep): Measure[] {
  const outcomes = [filed, ...cells.flatMap(({ outcome }) => outcome ?? [])];
  return MEASURES.filter(({ key }) =>
    outcomes.some((outcome) => outcome[key] !== null && outcome[key] !== 0),
  );
}
