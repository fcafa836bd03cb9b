import type { AlternativeResult } from '../../scenarios/study.ts';
import { changeWords } from '../change-words.ts';
import { type Html, html } from '../html.ts';
import type { StudyView } from '../view.ts';
import { capital } from '../words.ts';
import { arrayLossesPart } from './array-losses.ts';
import { boundPart } from './bound.ts';
import { checksPart } from './checks.ts';
import { climatePart } from './climate.ts';
import { darkWeekPart } from './dark-week.ts';
import { generatorPart } from './generator.ts';
import { moneyPart } from './money.ts';
import { monthsPart } from './months.ts';
import { outagesPart } from './outages.ts';
import { yearPart } from './year.ts';

/** Everything about one alternative. */
export function alternativeSection(view: StudyView, index: number, paper: Document): Html {
  const result = view.study.alternatives[index];
  return html`<section class="alternative" id="alternative-${index + 1}"><h2>${capital(result.name)}</h2>
${result.note ? html`<p>${result.note}</p>` : null}
${changes(result)}
${darkWeekPart(view, result, paper)}
${yearPart(view, result, paper)}
${generatorPart(view, result, paper)}
${boundPart(view, result, paper)}
${outagesPart(view, result)}
${climatePart(view, result, paper)}
${monthsPart(view, result, paper)}
${arrayLossesPart(view, result, paper)}
${moneyPart(view, result, paper)}
${checksPart(result, index === 0)}
</section>
`;
}

function changes(result: AlternativeResult): Html {
  if (result.changes.length === 0) return html`<p class="soft">The site as its file describes it.</p>`;
  return html`<p>Differs from the site as filed:</p><ul>${result.changes.map((change) => html`<li>${capital(changeWords(change))} <span class="soft">(<code>${change.path}</code>)</span></li>`)}</ul>`;
}
