import type { Cause, Sums, Visit } from '../../scenarios/visit/visit.ts';
import { figure, type Kind, unitOf } from '../numbers.ts';
import { aMonth } from './span.ts';

/** What the generator is measured by: litres where the log tells them, else hours, else kilowatt-hours. */
export interface Measure {
  kind: Extract<Kind, 'litres' | 'hours' | 'kwh'>;
  designed: number;
  ran: number;
  /** by cause, in the order of the visit */
  steps: number[];
  /** digits after the point that all of these are written with */
  decimals: number;
}

const SOURCES: { kind: Measure['kind']; sum: keyof Sums; step: keyof Cause }[] = [
  { kind: 'litres', sum: 'fuelL', step: 'fuelL' },
  { kind: 'hours', sum: 'runH', step: 'runH' },
  { kind: 'kwh', sum: 'generatorKwh', step: 'generatorKwh' },
];

/** By the month; null for a site without a generator, or where nothing can be compared. */
export function measureOf(visit: Visit): Measure | null {
  if (!visit.parts.generator) return null;
  for (const { kind, sum, step } of SOURCES) {
    const measure = measured(visit, kind, sum, step);
    if (measure !== null) return measure;
  }
  return null;
}

function measured(visit: Visit, kind: Measure['kind'], sum: keyof Sums, step: keyof Cause): Measure | null {
  const { designed, ran, causes } = visit.comparison;
  const ends = [designed[sum], ran[sum]].map((value) => aMonth(visit, value));
  const steps = causes.map((cause) => aMonth(visit, cause[step] as number | null));
  const all = [...ends, ...steps];
  if (!all.every((value): value is number => value !== null && Number.isFinite(value))) return null;
  const decimals = Math.max(...ends.map((value) => Math.abs(value ?? 0))) < 20 ? 1 : 0;
  return {
    kind,
    designed: ends[0] as number,
    ran: ends[1] as number,
    steps: steps as number[],
    decimals,
  };
}

/** "168 L a month" */
export function monthly({ kind, decimals }: Pick<Measure, 'kind' | 'decimals'>, value: number): string {
  return `${figure(kind, value, decimals)} a month`;
}

/** "L a month" */
export function monthlyUnit({ kind }: Pick<Measure, 'kind'>): string {
  return `${unitOf(kind, '')} a month`;
}
