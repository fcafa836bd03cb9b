import type { LimitKey, LimitSource, SourcedLimits } from '../scenarios/many/limits.ts';
import { alone, digits } from './numbers.ts';
import { counted } from './words.ts';

const SOURCES: Record<LimitSource, string> = {
  stated: 'stated',
  today: 'what it is today',
  design: 'from the design checks',
  'rating class': 'the class of the rating',
};

/** A limit as what must not be more: "4 starts in a day", "500 h a year". */
function limitWords(key: LimitKey, value: number): string {
  switch (key) {
    case 'unservedKwh':
      return value === 0 ? 'no load unserved' : `${alone('kwh', value)} a year unserved`;
    case 'startsADay':
      return `${counted(digits(value), 'start')} in a day`;
    case 'runHours':
      return `${alone('hours', value)} of running a year`;
    case 'nightHours':
      return `${alone('hours', value)} of running at night a year`;
    case 'depth':
      return `${alone('share', 1 - value)} of charge`;
  }
}

/** All limits that were kept to, each with where it comes from. */
export function limitList({ limits, sources }: SourcedLimits): string[] {
  return (Object.keys(limits) as LimitKey[]).flatMap((key) => {
    const value = limits[key];
    const source = sources[key];
    if (value === null) return [];
    const most = key === 'unservedKwh' && value === 0 ? '' : key === 'depth' ? 'at least ' : 'at most ';
    return [`${most}${limitWords(key, value)}${source ? ` (${SOURCES[source]})` : ''}`];
  });
}

/** A broken limit: "more than 4 starts in a day", "load unserved". */
export function brokenWords(key: LimitKey, { limits }: SourcedLimits): string {
  const value = limits[key] ?? 0;
  if (key === 'depth') return `less than ${limitWords(key, value)}`;
  return key === 'unservedKwh' && value === 0 ? 'load unserved' : `more than ${limitWords(key, value)}`;
}
