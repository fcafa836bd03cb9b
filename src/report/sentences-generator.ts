import type { AlternativeResult, Study } from '../scenarios/study.ts';
import { START_CAUSES } from '../sim/causes.ts';
import { hasGenerator, spanWords, startCount } from './facts.ts';
import { digits } from './numbers.ts';
import { shownText } from './shown.ts';
import { counted, listed, START_REASONS } from './words.ts';

/** What the generator of one alternative does, and why it starts. Empty for a site without one. */
export function generatorNow(study: Study, result: AlternativeResult): string[] {
  if (!hasGenerator(result)) return [];
  const span = spanWords(result.ledger);
  const { starts } = result.ledger.totals;
  if (starts === 0) return [`the generator never runs ${within(span)}`];
  const { hours, fuel, startsText } = texts(study, result);
  return [
    `the generator runs ${hours} ${span}, starts ${counted(startsText, 'time')} and burns ${fuel}`,
    causesSentence(study, result),
  ];
}

/** "It starts because …", with how often for each cause. */
function causesSentence(study: Study, result: AlternativeResult): string {
  const { starts, startsByCause } = result.ledger.totals;
  const causes = START_CAUSES.filter((cause) => startsByCause[cause] > 0).sort(
    (a, b) => startsByCause[b] - startsByCause[a],
  );
  const [main, ...others] = causes;
  if (others.length === 0)
    return starts === 1
      ? `it starts because ${START_REASONS[main]}`
      : `it starts each time because ${START_REASONS[main]}`;
  const times = causes.map(
    (cause) =>
      `${counted(cause === 'peak' ? startCount(study, result, startsByCause.peak) : digits(startsByCause[cause]), 'time')} because ${START_REASONS[cause]}`,
  );
  return `it starts ${listed(times)}`;
}

/** What changes for the generator. Empty where neither alternative has one. */
export function generatorChange(study: Study, first: AlternativeResult, other: AlternativeResult): string[] {
  if (!hasGenerator(other)) return hasGenerator(first) ? [goneSentence(study, first)] : [];
  const span = spanWords(other.ledger);
  const now = texts(study, other);
  if (!hasGenerator(first)) {
    if (other.ledger.totals.starts === 0) return [`there is a generator, which never runs ${within(span)}`];
    return [
      `a generator runs ${now.hours} ${span}, starts ${counted(now.startsText, 'time')} and burns ${now.fuel}`,
    ];
  }
  const before = texts(study, first);
  const neverNow = other.ledger.totals.starts === 0;
  const neverBefore = first.ledger.totals.starts === 0;
  if (neverNow)
    return [
      `the generator never runs ${within(span)}${neverBefore ? ', as before' : `, instead of ${before.hours}`}`,
    ];
  if (neverBefore)
    return [
      `the generator runs ${now.hours} ${span}, starts ${counted(now.startsText, 'time')} and burns ${now.fuel}; before, it never ran`,
    ];
  return [changedSentence(now, before, span)];
}

function changedSentence(now: Texts, before: Texts, span: string): string {
  const same: string[] = [];
  const changed: string[] = [];
  const sort = (verb: string, noun: string, value: string, old: string) => {
    if (value === old) same.push(noun);
    else changed.push(`${verb} ${value} instead of ${old}`);
  };
  if (now.hours === before.hours) same.push('hours');
  else changed.push(`runs ${now.hours} ${span} instead of ${before.hours}`);
  if (now.startsText === before.startsText) same.push('starts');
  else changed.push(`starts ${counted(now.startsText, 'time')} instead of ${before.startsText}`);
  sort('burns', 'fuel', now.fuel, before.fuel);
  if (changed.length === 0)
    return `nothing changes for the generator, which runs ${now.hours} ${span}, starts ${counted(now.startsText, 'time')} and burns ${now.fuel}`;
  const tail = same.length > 0 ? ` (${listed(same)} as before)` : '';
  return `the generator ${listed(changed)}${tail}`;
}

function goneSentence(study: Study, first: AlternativeResult): string {
  const before = texts(study, first);
  const span = spanWords(first.ledger);
  if (first.ledger.totals.starts === 0) return 'there is no generator; the one before never ran';
  return `there is no generator; the one before ran ${before.hours} ${span} and burnt ${before.fuel}`;
}

interface Texts {
  hours: string;
  fuel: string;
  startsText: string;
}

function texts(study: Study, result: AlternativeResult): Texts {
  return {
    hours: shownText(study, result, 'runH'),
    fuel: shownText(study, result, 'fuelL'),
    startsText: startCount(study, result, result.ledger.totals.starts),
  };
}

/** "in the year" rather than "never runs a year" */
function within(span: string): string {
  return span === 'a year' ? 'in the year' : span;
}
