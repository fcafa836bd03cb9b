import type { Site } from '../site-schema.ts';

/** Values for which a break-even is looked for. */
export const BREAK_EVEN_VALUES = [
  'fuelPrice',
  'loadGrowth',
  'discountRate',
  'batteryPrice',
  'studyYears',
] as const;

export type BreakEvenKey = (typeof BREAK_EVEN_VALUES)[number];

/** Where a value is looked for, and what it is in the site file. */
export interface ValueRange {
  from: number;
  to: number;
  filed: number;
}

/** The site file's own limits of the values. */
export const VALUE_LIMITS: Record<BreakEvenKey, [number, number]> = {
  fuelPrice: [0, 100],
  loadGrowth: [-0.2, 0.2],
  discountRate: [0, 0.5],
  batteryPrice: [0, 1e6],
  studyYears: [1, 50],
};

/**
 * The range in which a break-even is looked for, unless another is asked for.
 * @returns null where the site has no such value
 */
export function usualRange(key: BreakEvenKey, sites: readonly Site[]): ValueRange | null {
  const [{ money, horizon }] = sites;
  const has = (of: (site: Site) => unknown) => sites.some(of);
  switch (key) {
    case 'fuelPrice':
      if (!has(({ generator }) => generator)) return null;
      return { from: 0, to: money.fuelPerL > 0 ? 4 * money.fuelPerL : 10, filed: money.fuelPerL };
    case 'loadGrowth':
      return { from: -0.03, to: 0.06, filed: horizon.loadGrowth };
    case 'discountRate':
      return { from: 0, to: 0.3, filed: money.discountRate };
    case 'batteryPrice': {
      const price = money.batteryPerModule;
      return has(({ battery }) => battery) && price > 0 ? { from: 0, to: 4 * price, filed: price } : null;
    }
    case 'studyYears':
      return { from: 1, to: Math.max(30, money.years), filed: money.years };
  }
}
