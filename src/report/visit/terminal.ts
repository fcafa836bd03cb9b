import pc from 'picocolors';
import type { Visit } from '../../scenarios/visit/visit.ts';
import { keepUnits } from '../numbers.ts';
import { table } from '../plain-table.ts';
import { listed, small } from '../words.ts';
import { wrapped } from '../wrap.ts';
import { figureSentences, restsOn, verdictSentence } from './answer.ts';
import { causeRows } from './cause-rows.ts';
import { estimateName, estimateTexts, estimateUnit, isKnown } from './estimate-words.ts';
import { faultLines, firstSentence, notLookedForSentence } from './fault-lines.ts';
import { isMaterial } from './material.ts';
import { measureOf, monthlyUnit } from './measure.ts';
import { retuneSentences } from './retune-words.ts';
import { stretchWords } from './span.ts';

const LEAST_WIDTH = 60;
/** Faults that are told of in full; the others by name. */
const MOST_FAULTS = 3;
/** Estimates unlike the design that are told with their figures. */
const MOST_APART = 5;

/**
 * What the command line prints of a visit: is it as designed, why not, what to set, what is likely wrong; in the
 * sentences of the page.
 * @param columns width of the terminal; under 60 is treated as 60
 */
export function visitTerminal(visit: Visit, columns = 80, colour = pc.isColorSupported): string {
  const width = Math.max(LEAST_WIDTH, columns);
  const { bold, dim } = pc.createColors(colour);
  const paragraph = (text: string) =>
    wrapped(keepUnits(text), width - 2).map((line) => `  ${line.replaceAll('\u00a0', ' ')}`);
  const part = (title: string, lines: readonly string[]) =>
    lines.length > 0 ? ['', bold(title), ...lines] : [];
  const title = `${visit.site.name}: does it run as it was designed?`;
  return [
    ...wrapped(title, width).map(bold),
    ...paragraph([verdictSentence(visit), ...figureSentences(visit)].join(' ')),
    ...paragraph(restsOn(visit)).map(dim),
    ...(visit.invented
      ? paragraph('A demonstration: site, load, prices, equipment and log are invented.').map(dim)
      : []),
    ...part('Why', whyLines(visit, dim)),
    ...part('Of the plant, unlike its design', differingLines(visit).flatMap(paragraph)),
    ...part(
      'What to set',
      retuneSentences(visit).length > 0 ? paragraph(retuneSentences(visit).join(' ')) : [],
    ),
    ...part('Likely faults', faultParagraphs(visit).flatMap(paragraph)),
    '',
  ].join('\n');
}

/** The steps from promised to used, as a table. */
function whyLines(visit: Visit, dim: (text: string) => string): string[] {
  const measure = measureOf(visit);
  if (measure === null || visit.comparison.asDesigned) return [];
  const rows = causeRows(visit, measure).map(({ text, value }) => [text, value]);
  return table(
    [['  From promised to used', monthlyUnit(measure)], ...rows.map(([text, value]) => [`  ${text}`, value])],
    dim,
    'right',
  );
}

/** One sentence of what is materially unlike its design; none where nothing is. */
function differingLines(visit: Visit): string[] {
  const apart = visit.estimates.filter(isKnown).filter(isMaterial);
  if (apart.length === 0) return [];
  const more = apart.length - MOST_APART;
  const words = apart.slice(0, MOST_APART).map((each) => {
    const { value, low, high, designed } = estimateTexts(each);
    const unit = estimateUnit(each.key);
    const since = stretchWords(visit, each.fromS, each.toS);
    return `${small(estimateName(each.key))}${since === null ? '' : ` ${since}`} ${value} ${unit} (${low} to ${high}; designed ${designed})`;
  });
  return [`With their ranges of 90 %: ${listed(words)}${more > 0 ? `; ${more} more on the page` : ''}.`];
}

function faultParagraphs(visit: Visit): string[] {
  const faults = visit.faults.map((fault) => faultLines(fault, visit));
  const others = faults.slice(MOST_FAULTS).map(({ title }) => small(title));
  const left = notLookedForSentence(visit);
  return [
    ...faults
      .slice(0, MOST_FAULTS)
      .map(({ title, when, check }) => `${title}: ${when}. First: ${firstSentence(check)}`),
    ...(others.length > 0 ? [`Also: ${others.join('; ')}; see the page.`] : []),
    ...(faults.length === 0 ? ['None was found.'] : []),
    ...(left === null ? [] : [left]),
    'Likely, not certain. Looking and setting is work for licensed people: batteries, generators and mains can kill.',
  ];
}
