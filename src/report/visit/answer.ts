import type { Sums, Visit } from '../../scenarios/visit/visit.ts';
import { alone, decimalsFor, digits, duration, figure } from '../numbers.ts';
import { listed } from '../words.ts';
import { causeWords } from './cause-words.ts';
import { type Measure, measureOf, monthly } from './measure.ts';
import { aMonth, comparedMonths, dateOf, lastDateOf, logDays } from './span.ts';

/** Whether it runs as designed, in one sentence. */
export function verdictSentence(visit: Visit): string {
  if (comparedMonths(visit) <= 0) return 'Nothing in the log can be compared with the design.';
  if (visit.comparison.asDesigned)
    return 'It runs as it was designed: every difference is within what its recorder can tell.';
  const measure = measureOf(visit);
  if (measure === null) return 'It does not run as it was designed.';
  const more = shownDifference(measure);
  if (more === 0)
    return 'It does not run as it was designed, though its generator works no more and no less than was promised.';
  return `It does not run as it was designed: its generator works ${more > 0 ? 'more' : 'less'} than was promised.`;
}

/** What is more than promised, of the figures as they are written. */
function shownDifference({ designed, ran, decimals }: Measure): number {
  return Number(ran.toFixed(decimals)) - Number(designed.toFixed(decimals));
}

/** The generator by the month against what was promised; the load for a site without one. */
export function figureSentences(visit: Visit): string[] {
  if (comparedMonths(visit) <= 0) return [];
  const sentences = visit.parts.generator ? generatorSentences(visit) : siteSentences(visit);
  return [...sentences, ...tankSentences(visit)];
}

function generatorSentences(visit: Visit): string[] {
  const { designed, ran } = visit.comparison;
  const told = [
    against('burnt', 'litres', visit, designed.fuelL, ran.fuelL),
    against('ran', 'hours', visit, designed.runH, ran.runH),
  ].filter((part) => part !== null);
  const energy = against('gave', 'kwh', visit, designed.generatorKwh, ran.generatorKwh);
  if (told.length === 0 && energy !== null) told.push(energy);
  const sentences = [
    told.length > 0 ? `The generator ${listed(told)}.` : 'The log does not tell how the generator ran.',
  ];
  const starts = startsSentence(visit, designed, ran);
  if (starts !== null) sentences.push(starts);
  if (told.length > 0 && ran.fuelL === null) sentences.push('The log does not tell its litres.');
  return sentences;
}

/** "burnt 168 L a month where 121 were promised (39 % more)" */
function against(
  verb: string,
  kind: Measure['kind'],
  visit: Visit,
  designed: number | null,
  ran: number | null,
): string | null {
  const [promised, used] = [aMonth(visit, designed), aMonth(visit, ran)];
  if (promised === null || used === null) return null;
  const decimals = Math.max(promised, used) < 20 ? 1 : 0;
  const share = shareWords(promised, used);
  return `${verb} ${monthly({ kind, decimals }, used)} where ${figure(kind, promised, decimals)} were promised${share === null ? '' : ` (${share})`}`;
}

/** "39 % more"; null where nothing was promised or it is the same. */
function shareWords(promised: number, used: number): string | null {
  if (promised <= 0) return null;
  const share = used / promised - 1;
  if (Math.abs(share) < 0.005) return null;
  return `${digits(Math.abs(100 * share))} % ${share > 0 ? 'more' : 'less'}`;
}

function startsSentence(visit: Visit, designed: Sums, ran: Sums): string | null {
  const [promised, used] = [aMonth(visit, designed.starts), aMonth(visit, ran.starts)];
  if (promised === null || used === null) return null;
  const decimals = Math.max(promised, used) < 20 ? 1 : 0;
  return `It started ${timesWords(digits(used, decimals))} a month, where ${digits(promised, decimals)} ${digits(promised, decimals) === '1' ? 'was' : 'were'} reckoned with.`;
}

function timesWords(text: string): string {
  return text === '1' ? 'once' : `${text} times`;
}

function siteSentences(visit: Visit): string[] {
  const { designed, ran } = visit.comparison;
  const [planned, used] = [aMonth(visit, designed.loadKwh), aMonth(visit, ran.loadKwh)];
  if (planned === null || used === null) return [];
  const decimals = decimalsFor('kwh', [planned, used]);
  const share = shareWords(planned, used);
  const sentences = [
    `It used ${monthly({ kind: 'kwh', decimals }, used)} where ${figure('kwh', planned, decimals)} were planned${share === null ? '' : ` (${share})`}.`,
  ];
  if (visit.parts.battery && designed.lowestSoc !== null && ran.lowestSoc !== null)
    sentences.push(
      `Its battery was at ${alone('share', ran.lowestSoc)} at the lowest, where ${alone('share', designed.lowestSoc)} were reckoned with.`,
    );
  return sentences;
}

/** What is in the tank, and how long it lasts. */
function tankSentences({ tank, parts }: Visit): string[] {
  if (tank === null || !parts.generator) return [];
  const level = `The tank holds ${alone('litres', tank.levelL)}`;
  if (tank.daysLeft === null) return [`${level}, and nothing was burnt lately.`];
  return [
    `${level}; at ${alone('litres', tank.litresADay)} a day, as lately, that lasts ${duration(24 * tank.daysLeft)}.`,
  ];
}

/** Steps that are told of as the reason [share of the whole difference]. */
const TOLD_FRAC = 0.1;
const MOST_TOLD = 3;

/** Why it differs, largest cause first; empty where nothing does. */
export function whySentences(visit: Visit): string[] {
  const measure = measureOf(visit);
  if (measure === null || visit.comparison.asDesigned) return [];
  const { steps, designed, ran } = measure;
  const total = ran - designed;
  const causes = visit.comparison.causes
    .map(({ kind }, i) => ({ kind, step: steps[i] }))
    .filter(({ step }) => Math.abs(step) >= TOLD_FRAC * Math.abs(total) && shows(measure, step))
    .sort((a, b) => Math.abs(b.step) - Math.abs(a.step));
  const told = causes.filter(({ kind }) => kind !== 'unexplained').slice(0, MOST_TOLD);
  const sentences: string[] = [];
  const [first, ...rest] = told.map(
    ({ kind, step }) => `${causeWords(kind, step, visit)}, ${stepWords(measure, step)}`,
  );
  if (first !== undefined) sentences.push(`The largest cause: ${first} a month.`);
  if (rest.length > 0) sentences.push(`Next: ${rest.join('; ')}.`);
  const open = causes.find(({ kind }) => kind === 'unexplained');
  if (open) sentences.push(`${stepWords(measure, open.step)} are not explained by anything in the log.`);
  return sentences;
}

/** True where a step is more than nothing as it is written. */
export function shows({ decimals }: Measure, step: number): boolean {
  return Number(step.toFixed(decimals)) !== 0;
}

/** "+31 L", "−4 L" */
export function stepWords({ kind, decimals }: Measure, step: number): string {
  const text = figure(kind, step, decimals);
  return step > 0 && !text.startsWith('under') ? `+${text}` : text;
}

/** What all of it rests on. */
export function restsOn(visit: Visit): string {
  const days = logDays(visit);
  return `From the site’s own log of ${digits(days, days < 10 ? 1 : 0)} days, ${dateOf(visit, visit.fromS)} to ${lastDateOf(visit, visit.toS)}; ${alone('share', visit.comparison.coverage)} of it can be compared, and the rest is left out of both. What was promised is the design’s own simulation of these days.`;
}
