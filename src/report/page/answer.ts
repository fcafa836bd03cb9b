import { type Html, html } from '../html.ts';
import { studySentences } from '../sentences.ts';
import type { StudyView } from '../view.ts';
import { capital } from '../words.ts';
import { peakNote } from './heading.ts';

/** The answer in a paragraph for each alternative. */
export function answer(view: StudyView): Html {
  return html`<section id="answer"><h2>In short</h2><div class="answers">
${studySentences(view.study).map(
  ({ name, sentences }, i) =>
    html`<div><h3><a href="#alternative-${i + 1}">${capital(name)}</a></h3><p>${sentences.join(' ')}</p></div>`,
)}
</div>${peakNote(view)}</section>
`;
}
