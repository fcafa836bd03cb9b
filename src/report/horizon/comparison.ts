import type { HorizonAlternative, HorizonStudy } from '../../scenarios/horizon-result.ts';
import { FULL_WIDTH, HALF_WIDTH } from '../charts/draw.ts';
import { paidSoFarChart } from '../charts/paid-so-far.ts';
import { type Html, html } from '../html.ts';
import { figureBox, scrollable } from '../page/figure-box.ts';
import { paidSoFar } from '../titles-comparison.ts';
import { capital, quoted } from '../words.ts';
import { type HorizonFigure, horizonFigures, offWords, shown, shownTogether, yearsWord } from './figures.ts';

/** Lines of a drawing that can still be told apart. */
const MOST_LINES = 6;

/** All alternatives over all years, and beside each figure how far the first year repeated is off. */
export function sideBySide(study: HorizonStudy, paper: Document): Html {
  return html`<section id="compare"><h2>Side by side</h2>
<p class="note" id="compare-note">Sums over ${yearsWord(study.alternatives[0].years.length)}, each simulated. In small print: what the first year repeated would say, and how far that is off.</p>
${scrollable('Comparison of the alternatives', comparisonTable(study))}
${paidFigure(study, paper)}
</section>
`;
}

function comparisonTable(study: HorizonStudy): Html {
  return html`<table class="side" aria-describedby="compare-note">
<thead><tr><th scope="col">Figure</th>${study.alternatives.map(({ name }) => html`<th scope="col">${capital(name)}</th>`)}</tr></thead>
<tbody>${horizonFigures(study).map((figure) => figureRow(study, figure))}</tbody></table>`;
}

function figureRow({ alternatives, site }: HorizonStudy, { label, kind, of, shortcut }: HorizonFigure): Html {
  const texts = shownTogether(kind, alternatives.map(of), site.currency);
  const cells = alternatives.map((one, i) => {
    const off = shortcut && offWords(shortcut(one), of(one) ?? 0);
    const first =
      off && shortcut
        ? html`<small>${shown(kind, shortcut(one), site.currency)}:</small><small>${off}</small>`
        : null;
    return html`<td>${texts[i]}${first}</td>`;
  });
  return html`<tr><th scope="row">${label}</th>${cells}</tr>
`;
}

/** What each has cost up to every year; the cheapest, and always the site as filed. */
function paidFigure({ alternatives, site }: HorizonStudy, paper: Document): Html | null {
  const [first] = alternatives;
  const years = first.years.length;
  if (!first.has.money || years < 2) return null;
  const byCost = (a: HorizonAlternative, b: HorizonAlternative) =>
    a.sums.lifeCycleCost - b.sums.lifeCycleCost;
  const comparable = alternatives.filter((one) => one.years.length === years);
  const cheapest = comparable
    .filter((one) => one !== first)
    .sort(byCost)
    .slice(0, MOST_LINES - 1);
  const lines = comparable
    .filter((one) => one === first || cheapest.includes(one))
    .map(({ name, money }) => ({ name, paid: paidSoFar(money) }));
  const [best] = [...comparable].sort(byCost);
  const title = `${quoted(best.name)} costs least over ${yearsWord(years)}, ${shown('money', best.sums.lifeCycleCost, site.currency)}`;
  const drawn = (width: number) => paidSoFarChart(lines, site.currency, width, title, paper);
  return figureBox(
    title,
    { wide: drawn(FULL_WIDTH), narrow: drawn(HALF_WIDTH) },
    { full: true, note: 'Present value of all that was paid up to the end of each year.' },
  );
}
