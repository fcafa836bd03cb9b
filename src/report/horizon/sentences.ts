import type { HorizonAlternative, HorizonStudy, HorizonYear } from '../../scenarios/horizon-result.ts';
import { asEntered } from '../numbers.ts';
import { capital, listed, quoted } from '../words.ts';
import { offWords, percentLeft, replacements, shown, yearsWord } from './figures.ts';

/** What an owner should know of an alternative's years; for the second and further ones also against the first. */
export function horizonSentences(study: HorizonStudy, alternative: HorizonAlternative): string[] {
  const [first] = study.alternatives;
  const { currency } = study.site;
  const sentences = [
    ...generatorYears(alternative),
    ...batteryYears(alternative, currency),
    ...unservedYears(alternative),
    ...moneyYears(alternative, currency),
    ...shortcutOff(alternative, currency),
    ...(alternative === first ? [] : againstFirst(first, alternative, currency)),
  ];
  return sentences.map((sentence) => `${capital(sentence)}.`);
}

function generatorYears({ has, years, sums }: HorizonAlternative): string[] {
  if (!has.generator) return [];
  if (sums.fuelL === 0) return [`over ${yearsWord(years.length)} the generator never runs`];
  const [first] = years;
  const most = highest(years, ({ fuelL }) => fuelL);
  const whole = `over ${yearsWord(years.length)} the generator burns ${shown('litres', sums.fuelL)} in ${shown('hours', sums.runH)}`;
  if (most.year === 1) return [`${whole}, most of it, ${shown('litres', first.fuelL)}, in the first year`];
  return [
    `${whole}: ${shown('litres', first.fuelL)} in the first year, and at most ${shown('litres', most.fuelL)}, in year ${most.year}`,
  ];
}

function batteryYears(alternative: HorizonAlternative, currency: string): string[] {
  const { has, years, bankPrice } = alternative;
  if (!has.battery) return [];
  const replaced = replacements(alternative);
  const price =
    bankPrice > 0 ? ` for ${shown('money', bankPrice, currency)}${replaced.length > 1 ? ' each' : ''}` : '';
  const end = percentLeft(years[years.length - 1].battery?.endFrac ?? 1);
  const when =
    replaced.length > 0 ? `it is replaced in ${inYears(replaced)}${price}` : 'it is never replaced';
  if (!has.wear)
    return [`the site file states no wear of the battery, so that it keeps its capacity here; ${when}`];
  return [
    replaced.length > 0
      ? `the battery fades; ${when}, and the last one has ${end} of its capacity left at the end`
      : `the battery is never replaced and has ${end} of its capacity left at the end`,
  ];
}

function inYears(years: readonly number[]): string {
  const different = [...new Set(years)].map(String);
  return `${different.length > 1 ? 'years' : 'year'} ${listed(different)}`;
}

function unservedYears({ years, sums }: HorizonAlternative): string[] {
  if (sums.unservedKwh === 0) return ['no load goes unserved in any year'];
  const most = highest(years, ({ unservedKwh }) => unservedKwh);
  const [first] = years;
  const inFirst = first.unservedKwh === 0 ? 'none of it' : shown('kwh', first.unservedKwh);
  if (most.year === 1) return [`${shown('kwh', sums.unservedKwh)} go unserved, most of it in the first year`];
  return [
    `${shown('kwh', sums.unservedKwh)} go unserved: ${inFirst} in the first year, and at most ${shown('kwh', most.unservedKwh)}, in year ${most.year}`,
  ];
}

function moneyYears({ has, years, sums, discountRate }: HorizonAlternative, currency: string): string[] {
  if (!has.money) return [];
  const rate = discountRate > 0 ? `, at ${asEntered(discountRate * 100)} % a year real discount` : '';
  return [
    `building and running it for ${yearsWord(years.length)} costs ${shown('money', sums.lifeCycleCost, currency)} in today’s money${rate}`,
  ];
}

/** How far the first year multiplied is off. */
function shortcutOff({ has, years, sums, shortcut }: HorizonAlternative, currency: string): string[] {
  const parts = [
    has.generator ? off(shown('litres', shortcut.fuelL), shortcut.fuelL, sums.fuelL) : null,
    sums.unservedKwh > 0 && shortcut.unservedKwh === 0
      ? 'nothing unserved'
      : off(`${shown('kwh', shortcut.unservedKwh)} unserved`, shortcut.unservedKwh, sums.unservedKwh),
    has.money
      ? off(shown('money', shortcut.lifeCycleCost, currency), shortcut.lifeCycleCost, sums.lifeCycleCost)
      : null,
  ].filter((part) => part !== null);
  return parts.length > 0 ? [`the first year repeated ${years.length} times would say ${listed(parts)}`] : [];
}

function off(text: string, shortcut: number, simulated: number): string | null {
  const words = offWords(shortcut, simulated);
  return words && `${text} (${words})`;
}

/** Over the years, and whether the first year alone would have turned the verdict. */
function againstFirst(first: HorizonAlternative, other: HorizonAlternative, currency: string): string[] {
  if (!first.has.money || !other.has.money || first.years.length !== other.years.length) return [];
  const saved = first.sums.lifeCycleCost - other.sums.lifeCycleCost;
  const savedFirst = first.shortcut.lifeCycleCost - other.shortcut.lifeCycleCost;
  const words = (amount: number) =>
    `${shown('money', Math.abs(amount), currency)} ${amount < 0 ? 'more' : 'less'}`;
  const turned = saved * savedFirst < 0 ? ', the other way round' : '';
  return [
    `over the years that is ${words(saved)} than ${quoted(first.name)}; the first year repeated would say ${words(savedFirst)}${turned}`,
  ];
}

function highest(years: readonly HorizonYear[], of: (year: HorizonYear) => number): HorizonYear {
  return years.reduce((most, year) => (of(year) > of(most) ? year : most));
}
