import type { Sized, SizeResult } from '../../scenarios/many/size-result.ts';
import { brokenWords, limitList } from '../limit-words.ts';
import { alone, digits, figure } from '../numbers.ts';
import { capital, listed } from '../words.ts';
import { insteadWords, sizeWords } from './words.ts';

/** The answer in a few sentences: the own choice, the cheapest, what more capital buys, what was kept to. */
export function sizeSentences(result: SizeResult): string[] {
  return [...ownChoice(result), ...cheapestOf(result), ...sameCapital(result), ...keptTo(result)].map(
    (sentence) => `${capital(sentence)}.`,
  );
}

function ownChoice({ own, years, site }: SizeResult): string[] {
  const { outcome, yearlyCost } = own;
  const money = (value: number) => figure('money', value, 0, site.currency);
  return [
    `your choice (${sizeWords(own.size)}) costs ${money(outcome.capital)} at the start and then ${money(yearlyCost)} a year, in all ${money(outcome.lifeCycleCost)} over ${years} years in today’s money; it burns ${alone('litres', outcome.fuelL)} a year`,
  ];
}

function cheapestOf(result: SizeResult): string[] {
  const { own, cheapest, years, site } = result;
  if (cheapest === null) return ['no choice of sizes keeps the limits'];
  if (cheapest.changes === own.changes || cheapest.outcome.lifeCycleCost >= own.outcome.lifeCycleCost)
    return [`no choice that keeps the limits costs less over ${years} years`];
  const money = (value: number) => figure('money', Math.abs(value), 0, site.currency);
  const more = cheapest.outcome.capital - own.outcome.capital;
  const fuel = cheapest.outcome.fuelL - own.outcome.fuelL;
  const least = own.outcome.lifeCycleCost - cheapest.outcome.lifeCycleCost;
  return [
    `cheapest over ${years} years is ${insteadWords(cheapest.size, own.size)}: ${money(more)} ${more >= 0 ? 'more' : 'less'} at the start, ${alone('litres', Math.abs(fuel))} ${fuel >= 0 ? 'more' : 'less'} fuel a year, and ${money(least)} (${digits((100 * least) / own.outcome.lifeCycleCost, 1)} %) less in all`,
  ];
}

/** What the same money, or less of it, could buy. */
function sameCapital({ own, frontier, site }: SizeResult): string[] {
  const within = frontier.filter(({ outcome }) => outcome.capital <= own.outcome.capital);
  const best = within[within.length - 1];
  if (best === undefined || best.yearlyCost >= own.yearlyCost - 0.5)
    return ['no choice for as much money or less costs less a year'];
  const money = (value: number) => figure('money', value, 0, site.currency);
  return [
    `no more at the start, and ${money(own.yearlyCost - best.yearlyCost)} less a year: ${insteadWords(best.size, own.size)}`,
  ];
}

function keptTo({ limits, own }: SizeResult): string[] {
  const broken = own.broken.map((key) => brokenWords(key, limits));
  return [
    `limits: ${listed(limitList(limits))}`,
    ...(broken.length > 0 ? [`your choice does not keep them: ${listed(broken)}`] : []),
  ];
}

/** How it was searched, for whoever wants to know whether something was missed. */
export function sizeEffort({ effort, stepMin }: SizeResult): string[] {
  const { choices, fineRuns, coarseRuns, trials } = effort;
  const sentences = [
    `there are ${digits(choices)} choices of sizes; ${digits(fineRuns)} were simulated in steps of ${stepMin} min${coarseRuns > 0 ? `, ${digits(coarseRuns)} times one in coarser steps` : ''}`,
  ];
  for (const { stepMin: coarse, variants, rank, isUsed } of trials)
    sentences.push(
      `${coarse} min ranks ${variants} of them by cost ${isUsed ? 'as' : 'unlike'} ${stepMin} min (rank correlation ${digits(rank, 2)})${isUsed ? ': all were run at it, and every one that could be on a frontier again at the finest step, allowing for one and a half times what it said too much of the sample' : ', and was not used'}`,
    );
  sentences.push(
    trials.some(({ isUsed }) => isUsed)
      ? 'dots in the drawings are at the coarse step where a choice was not looked at more finely; lines and marked choices are all at the finest'
      : `all were run in steps of ${stepMin} min`,
  );
  return sentences.map((sentence) => `${capital(sentence)}.`);
}

/** So many choices of a frontier are listed, evenly along it, with its ends. */
const MOST_LISTED = 12;

/** Choices of a frontier that are listed: all, or some evenly along it; the cheapest always. */
export function listedSizes(frontier: readonly Sized[], cheapest: Sized | null): Sized[] {
  if (frontier.length <= MOST_LISTED) return [...frontier];
  const places = Array.from({ length: MOST_LISTED }, (_, n) =>
    Math.round((n * (frontier.length - 1)) / (MOST_LISTED - 1)),
  );
  return frontier.filter((one, i) => places.includes(i) || one === cheapest);
}

/** Choices that are listed by capital: all of a few, else the frontier. */
export function shownSizes({ all, frontier, cheapest }: SizeResult): Sized[] {
  return all ?? listedSizes(frontier, cheapest);
}

/** What a listed choice is: yours, cheapest, and why it is not on the frontier. */
export function markWords(one: Sized, { own, cheapest, frontier, limits }: SizeResult): string {
  const isOn = (other: Sized | null) => other !== null && other.changes === one.changes;
  const marks = [
    isOn(own) ? 'yours' : '',
    isOn(cheapest) ? 'cheapest' : '',
    ...one.broken.map((key) => brokenWords(key, limits)),
    one.broken.length === 0 && !frontier.some(isOn) ? 'another is better' : '',
  ];
  return marks.filter((mark) => mark !== '').join(', ');
}
