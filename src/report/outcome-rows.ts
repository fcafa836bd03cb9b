import { runningCostOf } from '../scenarios/many/score.ts';
import type { YearOutcome } from '../scenarios/many/year-outcome.ts';
import { bareFigure, decimalsFor, type Kind, unitOf } from './numbers.ts';

/** A figure of several outcomes side by side. */
export interface OutcomeRow {
  label: string;
  /** with the unit, for a table's first column */
  unit: string;
  texts: string[];
}

interface Figure {
  label: string;
  kind: Kind;
  of: (outcome: YearOutcome) => number | null;
}

const FIGURES: Figure[] = [
  { label: 'Fuel a year', kind: 'litres', of: ({ fuelL }) => fuelL },
  { label: 'Generator runs a year', kind: 'hours', of: ({ runH }) => runH },
  { label: '— of it in the night', kind: 'hours', of: ({ nightH }) => nightH },
  { label: '— of it below 30 % load', kind: 'hours', of: ({ lowLoadH }) => lowLoadH },
  { label: 'Starts a year', kind: 'count', of: ({ starts }) => starts },
  { label: 'Most starts in a day', kind: 'count', of: ({ mostStartsADay }) => mostStartsADay },
  { label: 'Unserved a year', kind: 'kwh', of: ({ unservedKwh }) => unservedKwh },
  { label: 'Lowest charge', kind: 'share', of: ({ minSoc }) => minSoc },
  { label: 'Battery lasts', kind: 'years', of: ({ batteryYears }) => batteryYears },
  {
    label: 'Fuel and service in the first year',
    kind: 'money',
    of: ({ runningFirstYear }) => runningFirstYear,
  },
];

/** Figures of a year and of the study, those that no outcome has left out. */
export function outcomeRows(outcomes: readonly YearOutcome[], years: number, currency: string): OutcomeRow[] {
  const study: Figure[] = [
    { label: `Paid after the start, ${years} years`, kind: 'money', of: runningCostOf },
    { label: `With what is paid at the start`, kind: 'money', of: ({ lifeCycleCost }) => lifeCycleCost },
  ];
  return [...FIGURES, ...study].flatMap(({ label, kind, of }) => {
    const values = outcomes.map(of);
    if (values.every((value) => value === null)) return [];
    const decimals = decimalsFor(kind, values);
    const texts = values.map((value) => bareFigure(kind, value, decimals));
    return [{ label, unit: unitOf(kind, currency), texts }];
  });
}
