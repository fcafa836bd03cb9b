import pc from 'picocolors';
import type { SiteRank } from '../../scenarios/visit/site-rank.ts';
import { alone, digits } from '../numbers.ts';
import { table } from '../plain-table.ts';
import { estimateTexts } from '../visit/estimate-words.ts';
import { wrapped } from '../wrap.ts';
import { LISTED_DAYS, type Ranking, rankSites } from './rank.ts';
import { moreWords, sitesSentences, unreadReasons, whyLine } from './words.ts';

const LEAST_WIDTH = 60;
const MOST_LISTED = 5;
const NAME_WIDTH = 30;
/** What the second line of a site begins with. */
const FURTHER = ' '.repeat(6);
/** Stands for a space at which a line is not broken, and in no text. */
const FILLER = '\u0001';

/**
 * What the command line prints of a folder of sites: the three lists, then a line for each site, worst first.
 * @param columns width of the terminal; under 60 is treated as 60
 */
export function sitesTerminal(
  ranks: readonly SiteRank[],
  columns = 80,
  colour = pc.isColorSupported,
): string {
  const width = Math.max(LEAST_WIDTH, columns);
  const { bold, dim } = pc.createColors(colour);
  const ranking = rankSites(ranks);
  const list = (title: string, head: string[], rows: string[][]) => {
    if (rows.length === 0) return [];
    const rest = rows.length - MOST_LISTED;
    const lines = table([head, ...rows.slice(0, MOST_LISTED)], dim, 'right');
    return [
      '',
      bold(title),
      ...lines.map((line) => `  ${line}`),
      ...(rest > 0 ? [`  and ${digits(rest)} more`] : []),
    ];
  };
  return [
    ...wrapped('Which site needs somebody, and why?', width).map(bold),
    ...wrapped(sitesSentences(ranking).join(' '), width - 2).map((line) => `  ${line}`),
    ...list(
      'Burns more than promised, a month',
      ['Site', 'promised', 'used', 'more', 'share'],
      burningRows(ranking),
    ),
    ...list(
      `Will run dry within ${LISTED_DAYS} days`,
      ['Site', 'tank', 'a day', 'days left'],
      dryingRows(ranking),
    ),
    ...list(
      'Battery holds less than named',
      ['Site', 'named, kWh', 'holds', '90 % interval'],
      fadingRows(ranking),
    ),
    '',
    bold('All sites, worst first'),
    ...allLines(ranking, width),
    ...(ranking.unread.length > 0 ? ['', bold('Not looked at')] : []),
    ...ranking.unread.flatMap((site) => {
      const [first, ...rest] = unreadReasons(site);
      const more = rest.length > 0 ? `; and ${digits(rest.length)} more` : '';
      return wrapped(`  ${site.site} (${site.file}): ${first}${more}`, width, '    ');
    }),
    '',
    ...wrapped(
      '  Likely, not certain. Looking and setting is work for licensed people: batteries, generators and mains can kill.',
      width,
      '  ',
    ),
    '',
  ].join('\n');
}

/** A line a site, worst first; a second one, set in, for a sentence that needs it. */
function allLines({ visited }: Ranking, width: number): string[] {
  const names = visited.map(({ site }) => cut(site, NAME_WIDTH));
  const longest = Math.max(0, ...names.map((name) => name.length));
  return visited.flatMap((site, i) => {
    const name = `  ${names[i].padEnd(longest)}  `;
    // broken at plain spaces: those of the name are put back
    const lines = wrapped(`${name.replaceAll(' ', FILLER)}${whyLine(site)}`, width, FURTHER);
    return lines.map((line) => line.replaceAll(FILLER, ' ').replaceAll('\u00a0', ' '));
  });
}

function burningRows({ burning }: Ranking): string[][] {
  return burning.map(({ site, measure }) => {
    const { promised, used, more, share } = moreWords(measure);
    return [cut(site.site, NAME_WIDTH), promised, used, more, share];
  });
}

function dryingRows({ drying }: Ranking): string[][] {
  return drying.map(({ site, tank }) => [
    cut(site.site, NAME_WIDTH),
    alone('litres', tank.levelL),
    alone('litres', tank.litresADay),
    digits(tank.daysLeft, tank.daysLeft < 10 ? 1 : 0),
  ]);
}

function fadingRows({ fading }: Ranking): string[][] {
  return fading.map(({ site, known }) => {
    const { value, low, high, designed } = estimateTexts(known);
    return [cut(site.site, NAME_WIDTH), designed, value, `${low} to ${high}`];
  });
}

/** A text that fits, or its beginning. */
function cut(text: string, width: number): string {
  return text.length <= width ? text : `${text.slice(0, width - 1).trimEnd()}…`;
}
