import { FULL_WIDTH, HALF_WIDTH } from '../charts/draw.ts';
import { figureBarsChart } from '../charts/figure-bars.ts';
import { paidSoFarChart } from '../charts/paid-so-far.ts';
import { GENERATOR, LOAD, SAVED } from '../charts/palette.ts';
import { type ComparisonRow, comparisonRows } from '../comparison-table.ts';
import { spanLength } from '../facts.ts';
import { type Html, html } from '../html.ts';
import { unitOf } from '../numbers.ts';
import { figureTitle, paidSoFar, paidSoFarTitle } from '../titles-comparison.ts';
import type { StudyView } from '../view.ts';
import { capital, quoted } from '../words.ts';
import { figureBox, scrollable } from './figure-box.ts';
import { peakNote } from './heading.ts';

/** Lines of a drawing that can still be told apart. */
const MOST_LINES = 6;

/** All alternatives side by side: the table, the deciding figures as bars, and what each has cost by year. */
export function comparison(view: StudyView, paper: Document): Html {
  const { study } = view;
  const rows = comparisonRows(study);
  const first = study.alternatives[0];
  return html`<section id="compare"><h2>Side by side</h2>
<p class="note" id="compare-note">Sums over ${spanLength(first.ledger)}. In small print: the difference from ${quoted(first.name)}. Bold: the best of its line.</p>
${scrollable('Comparison of the alternatives', comparisonTable(view, rows))}
${peakNote(view)}
${study.alternatives.length > 1 ? pictures(view, rows, paper) : null}
</section>
`;
}

function comparisonTable(view: StudyView, rows: readonly ComparisonRow[]): Html {
  const { study } = view;
  return html`<table class="side" aria-describedby="compare-note">
<thead><tr><th scope="col">Figure</th>${study.alternatives.map(({ name }) => html`<th scope="col">${capital(name)}</th>`)}</tr></thead>
<tbody>${rows.map((row) => tableRow(row, study.site.currency))}</tbody></table>`;
}

function tableRow(row: ComparisonRow, currency: string): Html {
  const unit = unitOf(row.figure.kind, currency);
  const cells = row.numbers.map((number, i) => {
    const difference = row.differenceTexts[i];
    return html`<td>${row.marked.includes(i) ? html`<b>${number}</b>` : number}${difference ? html`<small>${difference}</small>` : null}</td>`;
  });
  return html`<tr${row.figure.part ? html` class="part"` : null}><th scope="row">${row.figure.label}${unit ? `, ${unit}` : ''}${row.understated ? ' *' : ''}</th>${cells}</tr>
`;
}

function pictures(view: StudyView, rows: readonly ComparisonRow[], paper: Document): Html {
  const { study } = view;
  const names = study.alternatives.map(({ name }) => name);
  const boxes = rows
    .filter(({ figure }) => figure.decides)
    .map((row) => {
      const title = figureTitle(row, study);
      return figureBox(title, { wide: figureBarsChart(row, names, title, paper) });
    });
  const lifeCycle = rows.find(({ figure }) => figure.key === 'lifeCycleCost');
  return html`<h3>The figures that decide</h3>
<ul class="key"><li>The dashed line is where ${quoted(names[0])} ends:</li>${keyFor(LOAD, 'common to both')}${keyFor(SAVED, 'saved against it')}${keyFor(GENERATOR, 'more than it')}</ul>
<div class="pair top">${boxes}</div>
${lifeCycle && study.alternatives[0].money.years > 1 ? paidBox(view, lifeCycle, paper) : null}`;
}

function keyFor(fill: string, text: string): Html {
  return html`<li><svg class="swatch" width="18" height="12" aria-hidden="true"><rect x=".5" y=".5" width="17" height="11" fill="${fill}" stroke="var(--soft)" stroke-width=".8"/></svg>${text}</li>`;
}

function paidBox(view: StudyView, row: ComparisonRow, paper: Document): Html {
  const { study } = view;
  const title = paidSoFarTitle(study, row);
  const cheapest = study.alternatives
    .slice(1)
    .sort((a, b) => a.money.lifeCycleCost - b.money.lifeCycleCost)
    .slice(0, MOST_LINES - 1);
  const shown = study.alternatives.filter((result, i) => i === 0 || cheapest.includes(result));
  const lines = shown.map(({ name, money }) => ({ name, paid: paidSoFar(money) }));
  const draw = (width: number) => paidSoFarChart(lines, study.site.currency, width, title, paper);
  const left = study.alternatives.length - shown.length;
  const note = `Paid up to the end of each year, discounted to today${left > 0 ? `; the ${left} dearest alternatives are left out` : ''}.`;
  return figureBox(title, { wide: draw(FULL_WIDTH), narrow: draw(HALF_WIDTH) }, { full: true, note });
}
