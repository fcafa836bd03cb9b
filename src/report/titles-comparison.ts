import type { LifeCycle, Money } from '../scenarios/money.ts';
import type { Study } from '../scenarios/study.ts';
import type { ComparisonRow } from './comparison-table.ts';
import { figure } from './numbers.ts';
import { counted, listed, quoted } from './words.ts';

/** Which alternative does best in a figure, and by how much against the first. */
export function figureTitle(row: ComparisonRow, study: Study): string {
  const { label } = row.figure;
  const there = row.values.flatMap((value, i) => (value === null ? [] : [i]));
  if (row.best.length === 0)
    return there.length === 1
      ? `${label}: only ${quoted(study.alternatives[there[0]].name)}, ${row.texts[there[0]]}`
      : `${label}: ${row.texts[there[0]]} in every alternative`;
  const [best] = row.best;
  const nameList = (indexes: readonly number[]) =>
    listed(indexes.map((i) => quoted(study.alternatives[i].name)));
  if (row.best.length * 2 > there.length)
    return `${label}: ${row.texts[best]} in all but ${nameList(there.filter((i) => !row.best.includes(i)))}`;
  const names = nameList(row.best);
  const word = row.figure.better === 'more' ? 'most' : 'least';
  const difference = row.differences[best];
  const against =
    difference === null || difference === 0 || row.best.includes(0)
      ? ''
      : ` (${figure(row.figure.kind, Math.abs(difference), row.decimals, study.site.currency)} ${difference > 0 ? 'more' : 'less'} than ${quoted(study.alternatives[0].name)})`;
  return `${label}: ${word} with ${names}, at ${row.texts[best]}${against}`;
}

/** Present value of all that was paid up to the end of each year, year 0 first. */
export function paidSoFar(money: LifeCycle): number[] {
  let sum = 0;
  return money.cashFlow.map(({ presentValue }) => {
    sum += presentValue;
    return sum;
  });
}

/** Which alternative costs least in the end, and when it has paid back what it costs more to build. */
export function paidSoFarTitle(study: Study, row: ComparisonRow): string {
  const { alternatives, site } = study;
  const over = counted(String(alternatives[0].money.years), 'year');
  if (row.best.length === 0) return `Over ${over} all alternatives cost the same, ${row.texts[0]}`;
  const [best] = row.best;
  const least = `${quoted(alternatives[best].name)} costs least over ${over}, ${row.texts[best]}`;
  if (row.best.includes(0)) return least;
  const year = paidBackInYear(alternatives[0].money, alternatives[best].money);
  const dearer = alternatives[best].money.capital - alternatives[0].money.capital;
  if (year === null || dearer <= 0) return least;
  return `${least}; the ${figure('money', dearer, 0, site.currency)} more that it costs to build are back in year ${year}`;
}

/** The year from which the dearer alternative stays ahead; null when it never does. */
function paidBackInYear(first: Money, other: Money): number | null {
  const [a, b] = [paidSoFar(first), paidSoFar(other)];
  let year = a.length;
  while (year > 0 && b[year - 1] <= a[year - 1]) year--;
  return year < a.length ? year : null;
}
