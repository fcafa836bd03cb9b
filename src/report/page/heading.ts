import { peaksUnderstatedMin } from '../facts.ts';
import { type Html, html } from '../html.ts';
import { fullDate, hoursOfStep, localMs, type StudyView } from '../view.ts';
import { capital } from '../words.ts';

/** What site, what time, and the question. */
export function heading(view: StudyView): Html {
  const { site, axis } = view.study;
  const first = fullDate(localMs(view, 0));
  const last = fullDate(localMs(view, hoursOfStep(view, axis.count) - 0.01));
  return html`<header>
<p class="made">Darkweek report · simulated from ${first} to ${last} in steps of ${axis.stepMin} min</p>
<h1>${site.name}</h1>
${site.note ? html`<p>${site.note}</p>` : null}
<p class="question">When does the generator run, why, and what would change that?</p>
</header>
`;
}

/** Where to find what. */
export function contents(view: StudyView): Html {
  const { alternatives } = view.study;
  return html`<nav aria-label="Contents"><div><h2>On this page</h2><ul>
<li><a href="#answer">In short</a></li>
${alternatives.length > 1 ? html`<li><a href="#compare">Side by side</a></li>` : null}
${alternatives.some(({ checks }) => checks.length > 0) ? html`<li><a href="#checks">Design checks</a></li>` : null}
<li><a href="#care">Before anyone builds or touches anything</a></li>
${alternatives.map(({ name }, i) => html`<li><a href="#alternative-${i + 1}">${capital(name)}</a></li>`)}
<li><a href="#basis">What the figures rest on</a></li>
</ul></div></nav>
`;
}

/** What stands wherever starts on a high load are counted, when the load data cannot show all of them. */
export function peakNote(view: StudyView): Html | null {
  const coarse = peaksUnderstatedMin(view.study);
  if (coarse === null) return null;
  return html`<p class="note">* Understated: the load data have a step of ${coarse} min, and shorter peaks, which would start the generator too, are not in them.</p>`;
}
