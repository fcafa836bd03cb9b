import { issueSentence } from '../../scenarios/issue.ts';
import type { Visit } from '../../scenarios/visit/visit.ts';
import { FULL_WIDTH } from '../charts/draw.ts';
import { loggedDaysChart } from '../charts/logged-days.ts';
import { SAVED } from '../charts/palette.ts';
import { type Html, html } from '../html.ts';
import { digits } from '../numbers.ts';
import { cautions, GENERATOR_CARE } from '../page/cautions.ts';
import { figureBox, scrollable } from '../page/figure-box.ts';
import { small } from '../words.ts';
import { sheetSentences } from './data-sheet-words.ts';
import { daysTitle } from './days-title.ts';
import { estimatesTable, refusedList } from './estimates-table.ts';
import { type FaultLines, faultLines, lookedForWords, notLookedForSentence } from './fault-lines.ts';
import { changeRows, retuneSentences } from './retune-words.ts';
import { sumRows } from './sum-rows.ts';

/**
 * The technician's sheet: what the log says of the plant, what is likely wrong, what to set.
 * @param hasSheet whether a commissioning sheet with old and new settings is written beside it
 */
export function technicianPart(visit: Visit, hasSheet: boolean, paper: Document): Html {
  return html`<section id="technician"><h2>For the technician</h2>
<div class="two"><div>${sumsTable(visit)}${settingsTable(visit, hasSheet)}</div><div>${logPart(visit)}${doubtsPart(visit)}</div></div>
${daysFigure(visit, paper)}
${estimatesTable(visit, paper)}${refusedList(visit)}
${faultsPart(visit)}
${visit.parts.generator ? GENERATOR_CARE : null}
${cautions(visit.parts)}</section>
`;
}

function sumsTable(visit: Visit): Html {
  const rows = sumRows(visit);
  return html`<h3>As designed, as it ran, and reckoned again</h3>
${scrollable(
  'Sums by the month',
  html`<table class="compact"><thead><tr><th scope="col">A month of 30.44 days</th><th scope="col">Designed</th><th scope="col">Logged</th><th scope="col">Reckoned</th></tr></thead><tbody>${rows.map(
    ({ label, texts }) =>
      html`<tr><th scope="row">${label}</th>${texts.map((text) => html`<td>${text}</td>`)}</tr>
`,
  )}</tbody></table>`,
)}
<p class="note">Reckoned: the simulation with what was estimated from the log. What is left between it and the log is not explained.</p>
`;
}

function settingsTable(visit: Visit, hasSheet: boolean): Html | null {
  const rows = changeRows(visit);
  const sentences = retuneSentences(visit);
  if (sentences.length === 0) return null;
  return html`<h3>Settings, old and new</h3>
${
  rows.length > 0
    ? html`${scrollable(
        'Settings, old and new',
        html`<table class="compact"><thead><tr><th scope="col">Setting</th><th scope="col">Now</th><th scope="col">Enter</th></tr></thead><tbody>${rows.map(({ name, from, to }) => html`<tr><th scope="row">${name}</th><td>${from}</td><td><b>${to}</b></td></tr>`)}</tbody></table>`,
      )}<p class="note">${hasSheet ? 'All settings with old and new are on the commissioning sheet (settings.html). ' : ''}Read what is set before changing it.</p>`
    : html`<p>${sentences.join(' ')}</p>`
}`;
}

function logPart(visit: Visit): Html {
  return html`<h3>The log</h3>
<p class="note">${[...sheetSentences(visit), ...knownSentences(visit)].join(' ')}</p>
`;
}

/** How the log's fuel is known, and what of the log was filled to run the simulation over it. */
function knownSentences({ parts, comparison: { fuelFrom, filled } }: Visit): string[] {
  const steps = (count: number) => `${digits(count)} ${count === 1 ? 'step' : 'steps'}`;
  const source = parts.generator ? fuelFrom : null;
  const sun = `, and ${steps(filled.sunSteps)} without sun or free array output by the design`;
  return [
    ...(source === 'tank' ? ['Fuel is by the level of the tank over each run.'] : []),
    ...(source === 'curve' ? ['Fuel is by the fuel curve of the site file at the logged power.'] : []),
    `To run the simulation, ${steps(filled.loadSteps)} without a load were filled with the designed load times what was measured${parts.array ? sun : ''}.`,
  ];
}

function daysFigure(visit: Visit, paper: Document): Html | null {
  const { days } = visit.comparison;
  if (!visit.parts.generator || !days.ranKwh.some(Number.isFinite)) return null;
  const hasHole = !days.ranKwh.every(Number.isFinite);
  const title = daysTitle(visit);
  return figureBox(
    title,
    { wide: loggedDaysChart(visit, FULL_WIDTH, title, paper) },
    { full: true, key: hasHole ? [{ fill: SAVED, text: 'no day to compare' }] : [] },
  );
}

/** Letters about faults that a sheet of paper has room for; what is beyond is named there and in full on the screen. */
const FAULT_LETTERS = 1250;

function faultsPart(visit: Visit): Html {
  const faults = visit.faults.map((fault) => faultLines(fault, visit));
  const left = notLookedForSentence(visit);
  const printed = printedCount(faults);
  const others = faults.slice(printed).map(({ title }) => small(title));
  const screenOnly = (i: number) => (i >= printed ? html` class="screen-only"` : null);
  return html`<h3>Likely faults, and what to check first</h3>
${
  faults.length === 0
    ? html`<p>None was found${left === null ? '' : ' of those that could be looked for'}.</p>`
    : html`<dl class="faults">${faults.map(
        ({ title, when, evidence, check }, i) =>
          html`<dt${screenOnly(i)}>${title}: ${when}</dt><dd${screenOnly(i)}>${evidence} <em>First:</em> ${check}</dd>
`,
      )}</dl>${others.length > 0 ? html`<p class="note paper-only">Also likely, in full on the screen: ${others.join('; ')}.</p>` : null}`
}
${left === null ? null : html`<p class="note">${left}</p>`}
<details class="screen-only"><summary>What was looked for, and how large it must be to be found in nine cases of ten</summary><ul class="note">${lookedForWords(visit).map((words) => html`<li>${words}</li>`)}</ul></details>
`;
}

function printedCount(faults: readonly FaultLines[]): number {
  let letters = 0;
  const beyond = faults.findIndex(({ evidence, check }, i) => {
    letters += evidence.length + check.length;
    return i > 0 && letters > FAULT_LETTERS;
  });
  return beyond < 0 ? faults.length : beyond;
}

/** Doubts that are printed; all of them are on the screen. */
const MOST_DOUBTS = 1;

function doubtsPart({ doubts }: Visit): Html | null {
  if (doubts.length === 0) return null;
  const more = doubts.length - MOST_DOUBTS;
  return html`<h3>Doubts about the files</h3>
<ul class="note">${doubts.map((doubt, i) => html`<li${i >= MOST_DOUBTS ? html` class="screen-only"` : null}>${issueSentence(doubt)}</li>`)}</ul>
${more > 0 ? html`<p class="note paper-only">${more} more on the screen.</p>` : null}
`;
}
