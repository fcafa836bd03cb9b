import { parseHTML } from 'linkedom';
import type { Issue } from '../../scenarios/issue.ts';
import { issueSentence } from '../../scenarios/issue.ts';
import type { Sweep } from '../../scenarios/many/sweep.ts';
import { type Html, html } from '../html.ts';
import { alone, digits } from '../numbers.ts';
import { cautions, MONEY_CARE } from '../page/cautions.ts';
import { scrollable } from '../page/figure-box.ts';
import { sheet } from '../page/sheet.ts';
import { axisView } from './axis-view.ts';
import { bestTable } from './best-table.ts';
import { pictures } from './pictures.ts';
import { sweepSentences } from './sentences.ts';

/** The page of a sweep: one HTML file that holds everything it needs, opens from disk and prints. */
export function sweepPage(sweep: Sweep, doubts: readonly Issue[]): string {
  const { document: paper } = parseHTML('<!doctype html><html><body></body></html>');
  const { site, made, stepMin, days } = sweep;
  const views = sweep.axes.map(axisView);
  return sheet({
    ...{ site, made, stepMin: null },
    kind: 'sweep',
    how: `${digits(sweep.cells.length)} variants of one site, each simulated over ${digits(days)} days in steps of ${stepMin} min`,
    question: 'What would other numbers cost, burn, start and leave unserved?',
    title: 'sweep',
    contents: [
      { id: 'answer', text: 'In short' },
      { id: 'pictures', text: 'Pictures' },
      { id: 'care', text: 'Before anyone builds or touches anything' },
      { id: 'basis', text: 'What the figures rest on' },
    ],
    main: html`<section id="answer"><h2>In short</h2>
<p>${sweepSentences(sweep).join(' ')}</p>
${scrollable('The site as filed and the best variant', bestTable(sweep, views))}
<p class="note">${MONEY_CARE}</p>
</section>
${pictures(sweep, views, paper)}${cautions({ battery: true, array: true, generator: true })}
${basis(sweep, doubts)}`,
    also: 'on however many threads',
  });
}

function basis({ mostUnservedKwh, cells, gridSize }: Sweep, doubts: readonly Issue[]): Html {
  const wrong = cells.filter(({ problems }) => problems.length > 0);
  return html`<section id="basis"><h2>What these figures rest on</h2>
<ul>
<li>Every variant is the site as filed with the values changed that are named here, and nothing else: what goes with a size (fuel curve, cabinet, controller, threshold) stays as it is, unless it was varied too or an alternative of the site file names it.</li>
<li>The cheapest is the one of least life-cycle cost among those that leave ${mostUnservedKwh < 0.001 ? 'nothing' : `at most ${alone('kwh', mostUnservedKwh)}`} unserved; one year is repeated over the years of the study, and the battery replaced when its wear or its stated life says so.</li>
${
  cells.length < gridSize
    ? html`<li>Of ${digits(gridSize)} variants ${digits(cells.length)} were run, spread evenly over all numbers (Halton’s sequence); between them nothing was looked at.</li>`
    : null
}
<li>The table of all variants lies beside this page as CSV, JSON and Arrow.</li>
</ul>
${
  wrong.length > 0
    ? html`<h3>Variants that contradict themselves</h3><ul>${problemList(wrong.flatMap(({ problems }) => problems))}</ul>`
    : null
}
<h3>Doubts</h3>
${doubts.length === 0 ? html`<p>None were found in the inputs.</p>` : html`<ul>${doubts.map((doubt) => html`<li>${issueSentence(doubt)}</li>`)}</ul>`}
</section>
`;
}

const MOST_PROBLEMS = 12;

/** Each problem once. */
function problemList(problems: readonly string[]): Html[] {
  const different = [...new Set(problems)];
  const more = different.length - MOST_PROBLEMS;
  const listed = different.slice(0, MOST_PROBLEMS).map((problem) => html`<li>${problem}</li>`);
  return more > 0 ? [...listed, html`<li>${more} more, in the table of all variants</li>`] : listed;
}
