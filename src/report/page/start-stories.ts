import type { AlternativeResult } from '../../scenarios/study.ts';
import { type Html, html } from '../html.ts';
import type { StudyView } from '../view.ts';
import { startWords } from '../why-start.ts';
import { REMEDY_NOTE } from '../why-start-remedies.ts';

/** Why single runs started, and what would have avoided each, found by running the site again. */
export function startStoriesPart(view: StudyView, result: AlternativeResult): Html | null {
  const stories = result.startStories ?? [];
  if (stories.length === 0) return null;
  return html`<h3>Why it started, and what would have avoided it</h3>
<p class="note">${REMEDY_NOTE}</p>
${stories.map((story) => {
  const { heading, why, remedies } = startWords(view, result, story);
  return html`<h4>${heading}</h4><p>${why.join(' ')}</p><ul>${remedies.map((remedy) => html`<li>${remedy}</li>`)}</ul>
`;
})}`;
}
