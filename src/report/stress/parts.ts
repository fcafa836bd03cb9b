import type { Band } from '../../scenarios/many/percentile.ts';
import { PERCENTILE_WORDS } from '../../scenarios/many/percentile.ts';
import type { WorstYear } from '../../scenarios/many/stress-replay.ts';
import {
  type StressAlternative,
  type StressFigure,
  type StressStudy,
  type StressSummary,
  summaryOf,
} from '../../scenarios/many/stress-result.ts';
import { bandsChart } from '../charts/bands.ts';
import { type Html, html } from '../html.ts';
import { figure, type Kind, unitOf } from '../numbers.ts';
import { figureBox } from '../page/figure-box.ts';
import { filesAndDoubts } from '../page/sheet.ts';
import { MONTH_NAMES } from '../view.ts';
import { capital, quoted } from '../words.ts';
import { bandFigures, bandTexts, shareText } from './figures.ts';
import { termSentences } from './sentences.ts';
import { worstWeeks } from './worst.ts';

/** In each cell the three figures one under the other. */
export function bandTable(study: StressStudy): Html {
  const { alternatives, site } = study;
  const summaries = alternatives.map(summaryOf);
  const rows = bandFigures(study).map(({ label, kind, of }) => {
    const unit = unitOf(kind, site.currency);
    const cells = summaries.map((one) => {
      const [p10, p50, p90] = bandTexts(kind, of(one));
      return html`<td><small>${p10}</small><b>${p50}</b><small>${p90}</small></td>`;
    });
    return { head: `${label}${unit ? `, ${unit}` : ''}`, cells };
  });
  rows.push({
    head: 'Years without any load unserved',
    cells: summaries.map(
      ({ years, yearsWithoutUnserved }) => html`<td>${shareText(yearsWithoutUnserved, years)}</td>`,
    ),
  });
  return html`<table class="side"><thead><tr><th scope="col">Figure</th>${alternatives.map(({ name }) => html`<th scope="col">${capital(name)}</th>`)}</tr></thead>
<tbody>${rows.map(
    ({ head, cells }) => html`<tr><th scope="row">${head}</th>${cells}</tr>
`,
  )}</tbody></table>`;
}

const DRAWN: { figure: StressFigure; kind: Kind; name: string; unit: string }[] = [
  { figure: 'fuelL', kind: 'litres', name: 'fuel', unit: 'L' },
  { figure: 'runH', kind: 'hours', name: 'generator runs', unit: 'h' },
  { figure: 'running', kind: 'money', name: 'running cost', unit: '' },
  { figure: 'unservedKwh', kind: 'kwh', name: 'unserved load', unit: 'kWh' },
];

/** One alternative: its bands by month and year, and its worst year. */
export function alternativePart(
  study: StressStudy,
  one: StressAlternative,
  worst: WorstYear,
  i: number,
  paper: Document,
): Html {
  const summary = summaryOf(one);
  const shown = DRAWN.filter(({ figure: each }) => summary.year[each].most > 0);
  const pictures = shown.flatMap((each) => [
    monthsPicture(study, summary, each, paper),
    yearsPicture(study, summary, each, paper),
  ]);
  return html`<section class="alternative" id="alternative-${i + 1}"><h2>${capital(one.name)}</h2>
${one.note ? html`<p>${capital(one.note)}.</p>` : null}
<p class="note">A box holds the middle 80 % (10 to 90 %), the bar across it is the middle value, the thin line reaches from the least to the most.</p>
<div class="pair top">${pictures}</div>
<h3>The worst year: year ${worst.year} of run ${worst.run}</h3>
${worstWeeks(study, worst, paper)}</section>
`;
}

function monthsPicture(
  { site }: StressStudy,
  { months }: StressSummary,
  { figure: each, kind, name, unit }: (typeof DRAWN)[number],
  paper: Document,
): Html {
  const places = months.map((month, i) => ({ text: MONTH_NAMES[i % 12].charAt(0), band: month[each] }));
  const worst = highest(places.map(({ band }) => band));
  const title = `${name} by month: highest in ${MONTH_NAMES[worst % 12]}, ${topWords(places[worst].band, kind, 'one of ten', site.currency)}`;
  const axis = { unit: `${unit || site.currency} a month`, under: 'calendar month' };
  return figureBox(title, { wide: bandsChart(places, axis, title, paper) });
}

function yearsPicture(
  { site }: StressStudy,
  { byYear }: StressSummary,
  { figure: each, kind, name, unit }: (typeof DRAWN)[number],
  paper: Document,
): Html {
  const every = byYear.length > 12 ? 5 : 1;
  const places = byYear.map((year, i) => {
    return { text: (i + 1) % every === 0 || i === 0 ? String(i + 1) : '', band: year[each] };
  });
  const worst = highest(places.map(({ band }) => band));
  const title = `${name} by year of the study: highest in year ${worst + 1}, ${topWords(places[worst].band, kind, 'one run of ten', site.currency)}`;
  const axis = { unit: `${unit || site.currency} a year`, under: 'year of the study' };
  return figureBox(title, { wide: bandsChart(places, axis, title, paper) });
}

function topWords({ p90, most }: Band, kind: Kind, often: string, currency: string): string {
  return p90 > 0
    ? `in ${often} above ${figure(kind, p90, 0, currency)}`
    : `at most ${figure(kind, most, 0, currency)}, in fewer than ${often}`;
}

/** By the 90 % value, and of equal ones by the most. */
function highest(bands: readonly Band[]): number {
  return bands.reduce((best, band, i) => {
    const { p90, most } = bands[best];
    return band.p90 > p90 || (band.p90 === p90 && band.most > most) ? i : best;
  }, 0);
}

/** What was drawn, and what the figures are. */
export function basis({ terms, sheets, doubts, alternatives }: StressStudy): Html {
  const names = alternatives.map(({ name }) => quoted(name));
  return html`<section id="basis"><h2>What these figures rest on</h2>
<ul>
${termSentences(terms).map((sentence) => html`<li>${sentence}</li>`)}
<li>In each run the years follow one another, each from where the one before ended; the battery fades and is replaced as in <code>darkweek horizon</code>.${names.length > 1 ? ' Every alternative meets the same draws.' : ''}</li>
<li>${PERCENTILE_WORDS}.</li>
<li>Running cost is what fuel and service cost in the year, in constant money; the life-cycle cost holds capital, overhauls, new batteries and what the last one is worth too.</li>
<li>The years of one run share its load and battery, and the weather years are few: a share of years is no more certain than the number of runs allows. Ranges that the site file does not state are assumptions.</li>
</ul>
${filesAndDoubts(sheets, doubts)}</section>
`;
}
