import type { Extension, Visit } from '../../scenarios/visit/visit.ts';
import { causeStepsChart } from '../charts/cause-steps.ts';
import { FULL_WIDTH, HALF_WIDTH } from '../charts/draw.ts';
import { GENERATOR, LOAD, SAVED } from '../charts/palette.ts';
import { promisedUsedChart } from '../charts/promised-used.ts';
import { type Html, html } from '../html.ts';
import { bareFigure, decimalsFor } from '../numbers.ts';
import { figureBox, scrollable } from '../page/figure-box.ts';
import { small } from '../words.ts';
import { figureSentences, restsOn, verdictSentence, whySentences } from './answer.ts';
import { visitCare } from './care.ts';
import { causeRows, causesTitle, notDrawnWords } from './cause-rows.ts';
import { faultLines, notLookedForWords } from './fault-lines.ts';
import { measureOf } from './measure.ts';
import { monthsTitle } from './months-title.ts';
import { periodsOf } from './periods.ts';
import { retuneSentences } from './retune-words.ts';

/** The owner's sheet: in plain words, is it as promised, why not, what to do. */
export function ownerPart(visit: Visit, paper: Document): Html {
  return html`<section id="answer"><h2>For the owner</h2>
${visit.invented ? html`<p class="for">A demonstration: site, load, prices, equipment and log are invented.</p>` : null}
<p class="lead">${verdictSentence(visit)}</p>
${figureSentences(visit).length > 0 ? html`<p>${figureSentences(visit).join(' ')}</p>` : null}
<p class="note">${restsOn(visit)}</p>
${monthsFigure(visit, paper)}${whyPart(visit, paper)}${proposalPart(visit)}${lookPart(visit)}${extensionPart(visit)}
${visitCare(visit.parts)}</section>
`;
}

const PAIR_KEY = [
  { fill: LOAD, text: 'promised' },
  { fill: GENERATOR, text: 'used, by the log' },
];

function monthsFigure(visit: Visit, paper: Document): Html | null {
  const periods = periodsOf(visit);
  if (!visit.parts.generator || periods.every(({ compared }) => compared === 0)) return null;
  const title = monthsTitle(visit, periods);
  const height = 128;
  return figureBox(
    title,
    {
      wide: promisedUsedChart(periods, { width: FULL_WIDTH, height }, title, paper),
      narrow: promisedUsedChart(periods, { width: HALF_WIDTH, height }, title, paper),
    },
    { key: PAIR_KEY, full: true },
  );
}

function whyPart(visit: Visit, paper: Document): Html | null {
  const sentences = whySentences(visit);
  const measure = measureOf(visit);
  if (measure === null || visit.comparison.asDesigned) return null;
  const rows = causeRows(visit, measure);
  const title = causesTitle(measure);
  const note = notDrawnWords(visit, measure);
  return html`<h3>Why</h3>
${sentences.length > 0 ? html`<p>${sentences.join(' ')}</p>` : null}
${figureBox(
  title,
  {
    wide: causeStepsChart(rows, { width: FULL_WIDTH, narrow: false }, title, paper),
    narrow: causeStepsChart(rows, { width: HALF_WIDTH, narrow: true }, title, paper),
  },
  {
    key: [
      { fill: GENERATOR, text: 'adds to it' },
      { fill: SAVED, text: 'takes from it' },
    ],
    full: true,
    note,
  },
)}`;
}

function proposalPart(visit: Visit): Html | null {
  const sentences = retuneSentences(visit);
  if (sentences.length === 0) return null;
  return html`<h3>What we propose</h3>
<p>${sentences.join(' ')}${visit.retune.changes?.length && visit.fuelPerL ? ' In brackets what holds in nine cases of ten; no promise of weather or load.' : ''}</p>
`;
}

/** Faults that are told of in full on a sheet of paper; the others by name. */
const MOST_FAULTS = 4;

function lookPart(visit: Visit): Html {
  const faults = visit.faults.map((fault) => faultLines(fault, visit));
  const others = faults.slice(MOST_FAULTS).map(({ title }) => title);
  const open = notLookedForWords(visit).length;
  return html`<h3>What needs somebody to look at it</h3>
${
  faults.length === 0
    ? html`<p>Nothing was found${open > 0 ? ', of what could be looked for' : ''}.</p>`
    : html`<ul>${faults.slice(0, MOST_FAULTS).map(({ title, when }) => html`<li><strong>${title}</strong>: likely ${when}.</li>`)}${others.length > 0 ? html`<li>Also likely: ${others.map(small).join('; ')}.</li>` : null}</ul>
<p>What speaks for it and what to look at first is on the technician’s sheet.</p>`
}
`;
}

const MOST_EXTENSIONS = 3;

/** What was asked about adding to the site, a year before and after. */
function extensionPart({ extensions, parts }: Visit): Html | null {
  if (extensions.length === 0) return null;
  const shown = extensions.slice(0, MOST_EXTENSIONS);
  const rest = extensions.length - shown.length;
  return html`<h3>If it were extended</h3>
${scrollable(
  'Extensions, before and after',
  html`<table class="compact"><thead><tr><th scope="col">A year of the site as it runs, with</th>${parts.generator ? html`<th scope="col">Fuel, L</th><th scope="col">Generator, h</th>` : null}<th scope="col">Load not supplied, kWh</th></tr></thead><tbody>${shown.map((each) => extensionRow(each, parts.generator))}</tbody></table>`,
)}
${rest > 0 ? html`<p class="note">${rest} more ${rest === 1 ? 'is' : 'are'} in the file for scripts (--json).</p>` : null}
`;
}

function extensionRow({ name, before, after }: Extension, generator: boolean): Html {
  return html`<tr><th scope="row">${name}</th>${
    generator
      ? html`<td>${beforeAfter('litres', before.fuelL, after.fuelL)}</td><td>${beforeAfter('hours', before.runH, after.runH)}</td>`
      : null
  }<td>${beforeAfter('kwh', before.unservedKwh, after.unservedKwh)}</td></tr>
`;
}

function beforeAfter(kind: 'litres' | 'hours' | 'kwh', before: number | null, after: number | null): string {
  const decimals = decimalsFor(kind, [before, after]);
  return `${bareFigure(kind, before, decimals)} → ${bareFigure(kind, after, decimals)}`;
}
