import type { HorizonAlternative, HorizonStudy } from '../../scenarios/horizon-result.ts';
import { FULL_WIDTH, HALF_WIDTH } from '../charts/draw.ts';
import { paidSoFarChart } from '../charts/paid-so-far.ts';
import { type Html, html } from '../html.ts';
import { bareFigure, decimalsFor, type Kind, unitOf } from '../numbers.ts';
import { figureBox, scrollable } from '../page/figure-box.ts';
import { paidSoFar } from '../titles-comparison.ts';
import { capital, quoted } from '../words.ts';
import { type HorizonFigure, horizonFigures, offPercent, shown, yearsWord } from './figures.ts';

/** Lines of a drawing that can still be told apart; on a narrow one their key lies above them. */
const MOST_LINES = 6;
const MOST_NARROW_LINES = 3;

/** All alternatives over all years, and beside each figure how far the first year repeated is off. */
export function sideBySide(study: HorizonStudy, paper: Document): Html {
  return html`<section id="compare"><h2>Side by side</h2>
<p class="note" id="compare-note">Sums over ${yearsWord(study.alternatives[0].years.length)}, each simulated. In small print: what the first year repeated would say, and by how much that is off.${unequal(study)}</p>
${scrollable('Comparison of the alternatives', comparisonTable(study))}
${paidFigure(study, paper)}
</section>
`;
}

/** Said where alternatives are studied over different lengths, so that their sums are not alike. */
function unequal({ alternatives }: HorizonStudy): string {
  const [first, ...others] = alternatives;
  const differing = others.filter(({ years }) => years.length !== first.years.length);
  return differing.map(({ name, years }) => ` ${quoted(name)}: ${yearsWord(years.length)}.`).join('');
}

function comparisonTable(study: HorizonStudy): Html {
  return html`<table class="side" aria-describedby="compare-note">
<thead><tr><th scope="col">Figure</th>${study.alternatives.map(({ name }) => html`<th scope="col">${capital(name)}</th>`)}</tr></thead>
<tbody>${horizonFigures(study).map((figure) => figureRow(study, figure))}</tbody></table>`;
}

function figureRow({ alternatives, site }: HorizonStudy, { label, kind, of, shortcut }: HorizonFigure): Html {
  const unit = unitOf(kind, site.currency);
  const values = alternatives.map(of);
  const decimals = decimalsFor(kind, values);
  const cells = alternatives.map((one, i) => {
    const short = shortcut && shortcutCell(kind, shortcut(one), values[i] ?? 0, decimals);
    return html`<td>${bareFigure(kind, values[i], decimals)}${short}</td>`;
  });
  return html`<tr><th scope="row">${label}${unit ? `, ${unit}` : ''}</th>${cells}</tr>
`;
}

/** What the first year repeated says, and by how many percent that is off; nothing where both are nothing. */
function shortcutCell(kind: Kind, shortcut: number, simulated: number, decimals: number): Html | null {
  if (shortcut === 0 && simulated === 0) return null;
  return html`<small>${bareFigure(kind, shortcut, decimals)}</small><small>${offPercent(shortcut, simulated)}</small>`;
}

/** What each has cost up to every year; the cheapest, and always the site as filed. */
function paidFigure({ alternatives, site }: HorizonStudy, paper: Document): Html | null {
  const [first] = alternatives;
  const years = first.years.length;
  if (!first.has.money || years < 2) return null;
  const byCost = (a: HorizonAlternative, b: HorizonAlternative) =>
    a.sums.lifeCycleCost - b.sums.lifeCycleCost;
  const comparable = alternatives.filter((one) => one.years.length === years);
  const cheapest = comparable.filter((one) => one !== first).sort(byCost);
  const linesOf = (most: number) =>
    comparable
      .filter((one) => one === first || cheapest.slice(0, most - 1).includes(one))
      .map(({ name, money }) => ({ name, paid: paidSoFar(money) }));
  const [best] = [...comparable].sort(byCost);
  const title = `${quoted(best.name)} costs least over ${yearsWord(years)}, ${shown('money', best.sums.lifeCycleCost, site.currency)}`;
  const drawn = (width: number, most: number) =>
    paidSoFarChart(linesOf(most), site.currency, width, title, paper);
  return figureBox(
    title,
    { wide: drawn(FULL_WIDTH, MOST_LINES), narrow: drawn(HALF_WIDTH, MOST_NARROW_LINES) },
    { full: true, note: 'Present value of all that was paid up to the end of each year.' },
  );
}
