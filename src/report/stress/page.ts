import { parseHTML } from 'linkedom';
import type { WorstYear } from '../../scenarios/many/stress-replay.ts';
import type { StressStudy } from '../../scenarios/many/stress-result.ts';
import { html } from '../html.ts';
import { cautions } from '../page/cautions.ts';
import { scrollable } from '../page/figure-box.ts';
import { sheet } from '../page/sheet.ts';
import { capital, counted } from '../words.ts';
import { alternativePart, bandTable, basis } from './parts.ts';
import { stressSentences } from './sentences.ts';

/** The page of a stress. @param worst the worst year of each alternative, in their order */
export function stressPage(study: StressStudy, worst: readonly WorstYear[]): string {
  const { document: paper } = parseHTML('<!doctype html><html><body></body></html>');
  const { alternatives, terms } = study;
  const main = html`<section id="answer"><h2>In short</h2><div class="answers">
${alternatives.map(
  (one, i) =>
    html`<div><h3><a href="#alternative-${i + 1}">${capital(one.name)}</a></h3><p>${stressSentences(study, one).join(' ')}</p></div>`,
)}
</div></section>
<section id="compare"><h2>Side by side</h2>
<p class="note">In each cell: below the upper figure lie 10 % of the years, below the middle one half of them, below the lower one 90 %; for the life-cycle cost, of the runs. All alternatives meet the same years.</p>
${scrollable('Bands of the alternatives', bandTable(study))}</section>
${cautions(study.has)}
${alternatives.map((one, i) => alternativePart(study, one, worst[i], i, paper))}
${basis(study)}`;
  return sheet({
    ...study,
    kind: 'stress',
    how: `${counted(String(terms.runs), 'run')} of ${counted(String(terms.years), 'year')} in steps of ${study.stepMin} min`,
    question:
      'What if the years go badly: dull weather, more load, an older battery, a start that fails, fuel that comes late?',
    title: 'many years at once',
    contents: [
      { id: 'answer', text: 'In short' },
      { id: 'compare', text: 'Side by side' },
      { id: 'care', text: 'Before anyone builds or touches anything' },
      ...alternatives.map(({ name }, i) => ({ id: `alternative-${i + 1}`, text: capital(name) })),
      { id: 'basis', text: 'What the figures rest on' },
    ],
    main,
  });
}
