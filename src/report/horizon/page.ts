import { parseHTML } from 'linkedom';
import { describeSheet } from '../../scenarios/data-sheet.ts';
import type { HorizonStudy } from '../../scenarios/horizon-result.ts';
import { issueSentence } from '../../scenarios/issue.ts';
import { PATTERNS } from '../charts/palette.ts';
import { type Html, html, raw } from '../html.ts';
import { cautions } from '../page/cautions.ts';
import { STYLE } from '../page/style.ts';
import { capital, listed, quoted } from '../words.ts';
import { alternativeYears } from './alternative.ts';
import { sideBySide } from './comparison.ts';
import { yearsWord } from './figures.ts';
import { horizonSentences } from './sentences.ts';

/**
 * The page of a horizon: one HTML file that holds everything it needs, opens from disk and prints. The same study
 * gives the same bytes; with some alternatives outstanding it holds those that are finished, and says so.
 */
export function horizonPage(study: HorizonStudy): string {
  const { document: paper } = parseHTML('<!doctype html><html><body></body></html>');
  const { site, alternatives } = study;
  const page = html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${site.name}: how the years go</title>
<style>${raw(STYLE)}</style>
</head>
<body>
<a class="skip" href="#answer">Skip to the answer</a>
${raw(PATTERNS)}
<div class="sheet">
${heading(study)}${contents(study)}<main>
<section id="answer"><h2>In short</h2><div class="answers">
${alternatives.map(
  (one, i) =>
    html`<div><h3><a href="#alternative-${i + 1}">${capital(one.name)}</a></h3><p>${horizonSentences(study, one).join(' ')}</p></div>`,
)}
</div>${outstanding(study)}</section>
${sideBySide(study, paper)}${cautions(dangers(study))}
${alternatives.map((one, i) => alternativeYears(study, one, i, paper))}
${basis(study)}</main>
<footer><p class="made">Made by Darkweek ${study.made.version} from inputs <code>${study.made.inputsHash}</code> in steps of ${study.stepMin} min. The same inputs and version give the same figures.</p></footer>
</div>
</body>
</html>
`;
  return page.html;
}

function heading({ site, alternatives, start, stepMin }: HorizonStudy): Html {
  return html`<header>
<p class="made">Darkweek horizon · ${yearsWord(alternatives[0].years.length)} from ${start}, simulated one after the other in steps of ${stepMin} min</p>
<h1>${site.name}</h1>
${site.note ? html`<p>${site.note}</p>` : null}
<p class="question">How do the years go as the battery ages, and what will have been paid at their end?</p>
</header>
`;
}

function contents({ alternatives }: HorizonStudy): Html {
  return html`<nav aria-label="Contents"><div><h2>On this page</h2><ul>
<li><a href="#answer">In short</a></li>
<li><a href="#compare">Side by side</a></li>
<li><a href="#care">Before anyone builds or touches anything</a></li>
${alternatives.map(({ name }, i) => html`<li><a href="#alternative-${i + 1}">${capital(name)}</a></li>`)}
<li><a href="#basis">What the figures rest on</a></li>
</ul></div></nav>
`;
}

/** Said where a run was stopped before its end. */
function outstanding({ outstanding: names }: HorizonStudy): Html | null {
  if (names.length === 0) return null;
  return html`<p class="note">Not simulated yet when this page was written: ${listed(names.map(quoted))}.</p>`;
}

function dangers({ alternatives }: HorizonStudy) {
  return {
    battery: alternatives.some(({ has }) => has.battery),
    array: alternatives.some(({ has }) => has.array),
    generator: alternatives.some(({ has }) => has.generator),
  };
}

/** By which rules the years were simulated, and what was read. */
function basis({ alternatives, sheets, doubts }: HorizonStudy): Html {
  const list = alternatives.some(({ years }) => years.some(({ weather }) => weather !== null));
  const grows = alternatives.some(({ loadGrowth }) => loadGrowth !== 0);
  return html`<section id="basis"><h2>What these figures rest on</h2>
<ul>
<li>Each year begins where the one before ended: state of charge, temperatures, fuel in the tank, a generator run under way.</li>
<li>The battery ages by its cycles (counted by rainflow, ASTM E1049-85), its age and the temperature of its cells. A year is simulated with the capacity left at its start; the power limits shrink in the same proportion, and the one-way losses grow with the resistance. State of charge is against the capacity left.</li>
<li>A battery is replaced on the day on which it is due: at its stated life, else when its wear has used it up. Until that year’s end the simulation keeps the capacity of the old one. None is bought in the last year.</li>
<li>Weather: ${list ? 'the years listed in the site file, in turn' : 'the same year again and again'}. Load: ${grows ? 'changes every year as the site file states' : 'the same every year'}. The calendar is that of the first year.</li>
<li>Service is paid by the hour run; visits and overhauls are counted by the hours of all years together. Payments of a year fall at its end.</li>
<li>Not aged: arrays, inverters, the engine and its fuel consumption. Soiling stays as it is in the site file.</li>
</ul>
${
  sheets.length > 0
    ? html`<h3>Files read</h3>${sheets.map(
        (sheet) =>
          html`<h4>${sheet.file}</h4><ul>${describeSheet(sheet)
            .slice(1)
            .map((line) => html`<li>${line.trim()}</li>`)}</ul>`,
      )}`
    : null
}
<h3>Doubts</h3>
${doubts.length === 0 ? html`<p>None were found in the inputs.</p>` : html`<ul>${doubts.map((doubt) => html`<li>${issueSentence(doubt)}</li>`)}</ul>`}
</section>
`;
}
