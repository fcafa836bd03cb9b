import type { BreakEvenKey } from '../../scenarios/many/break-even-values.ts';
import { digits, figure } from '../numbers.ts';
import { counted } from '../words.ts';

/** How the values are called. */
export const VALUE_NAMES: Record<BreakEvenKey, string> = {
  fuelPrice: 'fuel price',
  loadGrowth: 'growth of the load',
  discountRate: 'discount rate',
  batteryPrice: 'price of a battery module',
  studyYears: 'length of the study',
};

/** The unit at an axis. */
export function axisUnit(key: BreakEvenKey, currency: string): string {
  switch (key) {
    case 'fuelPrice':
      return `${currency} a litre`;
    case 'loadGrowth':
    case 'discountRate':
      return '% a year';
    case 'batteryPrice':
      return `${currency} a module`;
    case 'studyYears':
      return 'years';
  }
}

/** The number at an axis: rates in percent. */
export function axisValue(key: BreakEvenKey, value: number): number {
  return key === 'loadGrowth' || key === 'discountRate' ? 100 * value : value;
}

/** "$0.66/L", "2.1 % a year", "$3,531 a module", "6 years". */
export function valueWords(key: BreakEvenKey, value: number, currency: string): string {
  switch (key) {
    case 'fuelPrice':
      return `${figure('money', value, 2, currency)}/L`;
    case 'loadGrowth':
    case 'discountRate':
      return `${digits(100 * value, Math.abs(value * 1000 - Math.round(value * 1000)) < 1e-9 ? (Number.isInteger(Math.round(value * 1000) / 10) ? 0 : 1) : 2)} % a year`;
    case 'batteryPrice':
      return `${figure('money', value, 0, currency)} a module`;
    case 'studyYears':
      return counted(digits(value), 'year');
  }
}
