import { parseHTML } from 'linkedom';
import type { HorizonStudy } from '../../scenarios/horizon-result.ts';
import { type Html, html } from '../html.ts';
import { cautions } from '../page/cautions.ts';
import { filesAndDoubts, sheet } from '../page/sheet.ts';
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
  const { site, alternatives, start, stepMin, made } = study;
  return sheet({
    ...{ site, made, stepMin },
    kind: 'horizon',
    how: `${yearsWord(alternatives[0].years.length)} from ${start}, simulated one after the other in steps of ${stepMin} min`,
    question: 'How do the years go as the battery ages, and what will have been paid at their end?',
    title: 'how the years go',
    contents: [
      { id: 'answer', text: 'In short' },
      { id: 'compare', text: 'Side by side' },
      { id: 'care', text: 'Before anyone builds or touches anything' },
      ...alternatives.map(({ name }, i) => ({ id: `alternative-${i + 1}`, text: capital(name) })),
      { id: 'basis', text: 'What the figures rest on' },
    ],
    main: html`<section id="answer"><h2>In short</h2><div class="answers">
${alternatives.map(
  (one, i) =>
    html`<div><h3><a href="#alternative-${i + 1}">${capital(one.name)}</a></h3><p>${horizonSentences(study, one).join(' ')}</p></div>`,
)}
</div>${outstanding(study)}</section>
${sideBySide(study, paper)}${cautions(dangers(study))}
${alternatives.map((one, i) => alternativeYears(study, one, i, paper))}
${basis(study)}`,
  });
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
${filesAndDoubts(sheets, doubts)}</section>
`;
}
