import type { Visit } from '../../scenarios/visit/visit.ts';
import { digits } from '../numbers.ts';
import type { Period } from './periods.ts';
import { logDays } from './span.ts';

/** What the months or weeks show: the mean of both, and where they are furthest apart. */
export function monthsTitle(visit: Visit, periods: readonly Period[]): string {
  const known = periods.filter(({ compared }) => compared > 0);
  const days = known.reduce((sum, { compared }) => sum + compared, 0);
  const mean = (key: 'designedKwh' | 'ranKwh') =>
    known.reduce((sum, period) => sum + period[key] * period.compared, 0) / days;
  const [promised, used] = [digits(mean('designedKwh'), 1), digits(mean('ranKwh'), 1)];
  const furthest = [...known].sort((a, b) => apart(b) - apart(a))[0];
  const start = `the generator gave ${used} kWh a day, where ${promised} were promised`;
  if (visit.comparison.asDesigned || logDays(visit) < 14 || digits(apart(furthest), 1) === '0') return start;
  const more = furthest.ranKwh > furthest.designedKwh ? 'more' : 'less';
  return `${start}; furthest apart in ${furthest.name}, ${digits(apart(furthest), 1)} kWh a day ${more}`;
}

function apart({ designedKwh, ranKwh }: Period): number {
  return Math.abs(ranKwh - designedKwh);
}
