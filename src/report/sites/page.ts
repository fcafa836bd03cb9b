import { parseHTML } from 'linkedom';
import type { SiteRank } from '../../scenarios/visit/site-rank.ts';
import { sitesUsedChart } from '../charts/sites-used.ts';
import { type Html, html } from '../html.ts';
import { digits } from '../numbers.ts';
import { cautions } from '../page/cautions.ts';
import { figureBox, scrollable } from '../page/figure-box.ts';
import { sheet } from '../page/sheet.ts';
import { visitCare } from '../visit/care.ts';
import { burningList, dryingList, fadingList, type Linked } from './lists.ts';
import { visitLink, visitPlaces } from './places.ts';
import { type Ranking, rankSites, type Visited } from './rank.ts';
import { moreWords, ORDER_WORDS, sitesSentences, unreadReasons, whyLine } from './words.ts';

export interface SitesHeading {
  /** of the folder */
  name: string;
  made: { version: string; inputsHash: string };
}

const MOST_NAMED = 5;

/** The page of a folder of sites: who burns more than promised, who will run dry, whose battery fades, and all of them. */
export function sitesPage(ranks: readonly SiteRank[], { name, made }: SitesHeading): string {
  const { document: paper } = parseHTML('<!doctype html><html><body></body></html>');
  const ranking = rankSites(ranks);
  const parts = partsOf(ranking);
  const places = visitPlaces(ranks);
  const linked: Linked = ({ site, file }) =>
    html`<a href="${visitLink(places.get(file) ?? file)}">${site}</a>`;
  return sheet({
    site: { name, note: '' },
    made,
    stepMin: null,
    style: SITES_STYLE,
    kind: 'sites',
    how: `${digits(ranks.length)} ${ranks.length === 1 ? 'site' : 'sites'}, each with its own log`,
    question: 'Which site needs somebody, and why?',
    title: 'which site needs somebody',
    contents: [
      { id: 'answer', text: 'In short' },
      { id: 'all', text: 'All sites, worst first' },
      ...(ranking.unread.length > 0 ? [{ id: 'unread', text: 'Not looked at' }] : []),
      { id: 'care', text: 'Before anyone builds or touches anything' },
    ],
    main: html`<section id="answer"><h2>In short</h2>
${ranking.visited.some(({ visit }) => visit.invented) ? html`<p class="note">Demonstration sites are among them: their data is invented.</p>` : null}
${sitesSentences(ranking).map((sentence) => html`<p>${sentence}</p>`)}
${visitCare(parts)}
${usedFigure(ranking, paper)}${burningList(ranking, linked)}${dryingList(ranking, linked)}${fadingList(ranking, linked)}</section>
${allTable(ranking, linked)}${unreadList(ranking)}${cautions(parts)}`,
  });
}

const SITES_STYLE = `
#all th:first-child{width:30%;min-width:10rem}td.why{text-align:left;min-width:16rem}
table.compact th,table.compact td{padding-top:.2rem;padding-bottom:.2rem}
.file{display:block;color:var(--soft);font-size:.8125rem;overflow-wrap:anywhere}
@media print{body{font-size:9pt}.note{font-size:8pt}table{font-size:7.4pt;line-height:1.15}table.compact th,table.compact td{padding-top:.35mm;padding-bottom:.35mm}#all .file{display:inline;margin-left:1.5mm;font-size:6.6pt}figure.full .chart{width:80%}}
`;

function partsOf({ visited }: Ranking): Visited['visit']['parts'] {
  const any = (part: keyof Visited['visit']['parts']) => visited.some(({ visit }) => visit.parts[part]);
  return {
    generator: any('generator'),
    battery: any('battery'),
    array: any('array'),
    cabinet: any('cabinet'),
  };
}

function usedFigure({ visited, burning }: Ranking, paper: Document): Html | null {
  const named = new Set(burning.slice(0, MOST_NAMED).map(({ site }) => site.file));
  const dots = visited.flatMap(({ site, file, visit, measure }) =>
    measure?.kind === 'litres'
      ? [
          {
            ...{ name: site, promised: measure.designed, used: measure.ran },
            ...{ asDesigned: visit.comparison.asDesigned, named: named.has(file) },
          },
        ]
      : [],
  );
  if (dots.length < 2) return null;
  const above = dots.filter(({ promised, used, asDesigned }) => used > promised && !asDesigned).length;
  const title = `litres a month, promised and used: ${digits(above)} of ${digits(dots.length)} sites ${above === 1 ? 'is' : 'are'} above the line on which they are the same, and not as designed`;
  return figureBox(
    title,
    { wide: sitesUsedChart(dots, title, paper) },
    {
      full: true,
      key: [
        { fill: 'var(--ink)', text: 'full: not as designed' },
        { fill: 'var(--paper)', text: 'ring: as designed', sign: 'ring' },
      ],
      note: named.size > 0 ? 'Named are those that are most above it.' : undefined,
    },
  );
}

function allTable({ visited }: Ranking, linked: Linked): Html {
  return html`<section id="all"><h2>All sites, worst first</h2>
<p class="note">${ORDER_WORDS}</p>
${scrollable(
  'All sites, worst first',
  html`<table class="compact"><thead><tr><th scope="col">Site</th><th scope="col">Promised a month</th><th scope="col">Used</th><th scope="col" class="text">Why</th></tr></thead><tbody>${visited.map(
    (site) => {
      const { promised, used } = site.measure ? moreWords(site.measure) : { promised: '–', used: '–' };
      return html`<tr><th scope="row">${linked(site)}<span class="file">${site.file}</span></th><td>${promised}</td><td>${used}</td><td class="why">${whyLine(site)}</td></tr>
`;
    },
  )}</tbody></table>`,
)}</section>
`;
}

/** Reasons of one site that are listed. */
const MOST_REASONS = 3;

function unreadList({ unread }: Ranking): Html | null {
  if (unread.length === 0) return null;
  return html`<section id="unread"><h2>Not looked at</h2>
<ul>${unread.map((rank) => {
    const { site, file } = rank;
    const reasons = unreadReasons(rank);
    const rest = reasons.length - MOST_REASONS;
    return html`<li><strong>${site}</strong> <span class="file">${file}</span><ul>${reasons.slice(0, MOST_REASONS).map((problem) => html`<li>${problem}</li>`)}${rest > 0 ? html`<li>${digits(rest)} more</li>` : null}</ul></li>
`;
  })}</ul></section>
`;
}
