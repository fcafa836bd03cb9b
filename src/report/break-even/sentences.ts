import type { BreakEven, BreakEvenResult, Crossing } from '../../scenarios/many/break-even.ts';
import { alone, digits, figure } from '../numbers.ts';
import { capital, counted, listed, quoted } from '../words.ts';
import { VALUE_NAMES, valueWords } from './words.ts';

/** Which of the two costs less as filed, and whether and when the dearer one pays back. */
export function verdict(
  { sides, years, payback, discountRate, unservedPriced }: BreakEvenResult,
  currency: string,
): string[] {
  const [first, second] = sides;
  const money = (value: number) => figure('money', Math.abs(value), 0, currency);
  const difference = second.lifeCycleCost - first.lifeCycleCost;
  const over = `Over ${counted(String(years), 'year')}`;
  const against = `“${first.name}”`;
  const sentences = [
    Math.abs(difference) < 0.5
      ? `${over} both cost ${money(first.lifeCycleCost)}.`
      : `${over} ${quoted(second.name)} costs ${money(second.lifeCycleCost)} in today’s money, ${money(difference)} ${difference < 0 ? 'less' : 'more'} than ${against}.`,
  ];
  if (payback) {
    const { simpleYears, discountedYears, dearer, extraCapital } = payback;
    const build = `${quoted(sides[dearer].name)} costs ${money(extraCapital)} more to build`;
    const back = (value: number) => `after ${digits(value, 1)} years`;
    if (simpleYears === null) sentences.push(`${build}, which is not back within the study.`);
    else if (discountedYears === null)
      sentences.push(
        `${build}, which is back ${back(simpleYears)}, but not within the study at ${rate(discountRate)}.`,
      );
    else
      sentences.push(
        `${build}, which is back ${back(simpleYears)}, ${back(discountedYears)} at ${rate(discountRate)}.`,
      );
  }
  const [a, b] = sides.map(({ unservedKwh }) => unservedKwh);
  if (a > 0 || b > 0)
    sentences.push(
      `${unservedPriced ? 'In these costs, at the price of the site file' : 'Not in these costs'}: ${quoted(first.name)} leaves ${alone('kwh', a)} a year unserved, ${quoted(second.name)} ${alone('kwh', b)}.`,
    );
  return sentences;
}

function rate(discountRate: number): string {
  return `${digits(100 * discountRate, Number.isInteger(100 * discountRate) ? 0 : 1)} % discount a year`;
}

/** Where the two change places when one value is another, to stand above a drawing. */
export function valueTitle(value: BreakEven, { sides }: BreakEvenResult, currency: string): string {
  const { key, crossings, from, to, curve, same } = value;
  const name = VALUE_NAMES[key];
  const words = (at: number) => valueWords(key, at, currency);
  const range = `from ${words(from)} to ${words(to)}`;
  if (same) return `${name}: both cost the same ${range}`;
  if (crossings.length === 0) {
    const cheaper = curve[0].costs[1] < curve[0].costs[0] ? 1 : 0;
    const closest = curve.reduce((best, point) => (gap(point.costs) < gap(best.costs) ? point : best));
    return `${name}: no break-even; ${quoted(sides[cheaper].name)} costs less ${range}, least so at ${words(closest.value)}, by ${figure('money', gap(closest.costs), 0, currency)}`;
  }
  const [first] = crossings;
  const below = quoted(sides[first.cheaperBelow].name);
  const above = quoted(sides[1 - first.cheaperBelow].name);
  if (crossings.length > 1)
    return `${name}: the two change places ${counted(String(crossings.length), 'time')}, at ${listed(crossings.map(({ value: at }) => words(at)))}; ${below} costs less below the first`;
  if (first.kind === 'whole years')
    return `${name}: ${above} costs less from ${words(first.value)} on, ${below} in a shorter study`;
  return `${name}: ${above} costs less above ${words(first.value)}, ${below} below it`;
}

/** The same with what the site file has, and how exact it is. */
export function valueSentence(value: BreakEven, result: BreakEvenResult, currency: string): string {
  const { key, crossings, filed } = value;
  const jumps = crossings.filter(({ kind }) => kind === 'jump');
  const exact = jumps.length > 0 ? `. ${jumpWords(jumps, currency)}` : '';
  return `${capital(valueTitle(value, result, currency))} (the site file has ${valueWords(key, filed, currency)})${exact}.`;
}

/** Why there is no value at which the costs are equal to the cent. */
function jumpWords(jumps: readonly Crossing[], currency: string): string {
  const most = Math.max(...jumps.map(({ costs }) => gap(costs)));
  return `There the costs pass each other in a jump and differ by ${figure('money', most, 0, currency)}: a start that moves by a step moves its fuel`;
}

function gap([a, b]: readonly [number, number]): number {
  return Math.abs(b - a);
}
