import type { Sums, Visit } from '../../scenarios/visit/visit.ts';
import { bareFigure, decimalsFor, type Kind } from '../numbers.ts';
import { aMonth } from './span.ts';

interface SumRow {
  label: string;
  /** designed, logged, reckoned */
  texts: string[];
}

const ROWS: {
  key: keyof Sums;
  label: string;
  kind: Kind;
  part: keyof Visit['parts'] | null;
  level?: boolean;
}[] = [
  { key: 'loadKwh', label: 'Load, kWh', kind: 'kwh', part: null },
  { key: 'arrayKwh', label: 'Arrays, kWh', kind: 'kwh', part: 'array' },
  { key: 'generatorKwh', label: 'Generator, kWh', kind: 'kwh', part: 'generator' },
  { key: 'fuelL', label: 'Fuel, L', kind: 'litres', part: 'generator' },
  { key: 'runH', label: 'Run hours, h', kind: 'hours', part: 'generator' },
  { key: 'starts', label: 'Starts', kind: 'cycles', part: 'generator' },
  { key: 'lowestSoc', label: 'Lowest charge, %', kind: 'share', part: 'battery', level: true },
];

/** Sums by the month, levels as they are; only of what the site has. */
export function sumRows(visit: Visit): SumRow[] {
  const { designed, ran, calibrated } = visit.comparison;
  return ROWS.filter(({ part }) => part === null || visit.parts[part]).map(({ key, label, kind, level }) => {
    const values = [designed, ran, calibrated].map((sums) => (level ? sums[key] : aMonth(visit, sums[key])));
    const decimals = Math.min(1, decimalsFor(kind, values));
    return { label, texts: values.map((value) => bareFigure(kind, value, decimals)) };
  });
}
