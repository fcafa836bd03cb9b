import type { AlternativeResult, Study } from '../scenarios/study.ts';
import { asEntered } from './numbers.ts';
import { shownDifference, shownText } from './shown.ts';
import { counted, listed } from './words.ts';

/** What one alternative costs to build, to run, and over the years. */
export function moneyNow(study: Study, result: AlternativeResult): string {
  const build = shownText(study, result, 'capital');
  const run = shownText(study, result, 'runningFirstYear');
  const whole = shownText(study, result, 'lifeCycleCost');
  return `it costs ${build} to build and ${run} to run in the first year: ${whole} over ${overYears(result)}${discounted(result)}`;
}

/** What an alternative costs more or less than the first. */
export function moneyChange(study: Study, _first: AlternativeResult, other: AlternativeResult): string {
  const parts = [
    part(study, other, 'capital', 'to build'),
    part(study, other, 'runningFirstYear', 'to run in the first year'),
    part(study, other, 'lifeCycleCost', `over ${overYears(other)}`),
  ];
  if (parts.every(({ same }) => same)) return 'it costs the same to build and to run';
  return `it costs ${listed(parts.map(({ words }) => words))}`;
}

function part(
  study: Study,
  other: AlternativeResult,
  key: string,
  when: string,
): { words: string; same: boolean } {
  const difference = shownDifference(study, other, key);
  if (difference === null) return { words: `the same ${when}`, same: true };
  return { words: `${difference.text} ${difference.more ? 'more' : 'less'} ${when}`, same: false };
}

function overYears(result: AlternativeResult): string {
  return counted(String(result.money.years), 'year');
}

function discounted(result: AlternativeResult): string {
  const { discountRate } = result.money;
  return discountRate > 0 ? `, at ${asEntered(discountRate * 100)} % a year real discount` : '';
}
