import type { AlternativeResult } from '../../scenarios/study.ts';
import { BOUND_NOTE, boundSentences, foresightTitle, foresightWeek } from '../bound-words.ts';
import { FULL_WIDTH, HALF_WIDTH } from '../charts/draw.ts';
import { foresightWeekChart } from '../charts/foresight-week.ts';
import { type Html, html } from '../html.ts';
import type { StudyView } from '../view.ts';
import { figureBox } from './figure-box.ts';

/** The least fuel that anything could burn, beside what the thresholds burn, and the dark week with foresight. */
export function boundPart(view: StudyView, result: AlternativeResult, paper: Document): Html | null {
  const { bound } = result;
  if (!bound) return null;
  const week = foresightWeek(result, bound);
  const title = foresightTitle(view, result, week);
  const draw = (width: number) => foresightWeekChart(view, result, week, width, title, paper);
  const note =
    'Foresight is one of many ways of running that burn the least over the whole run: each hour’s mean output is drawn, which may be a few minutes at full load. Both generators are drawn to one scale.';
  return html`<h3>How good could it be</h3>
<ul>${boundSentences(result, bound).map((sentence) => html`<li>${sentence}</li>`)}</ul>
${figureBox(title, { wide: draw(FULL_WIDTH), narrow: draw(HALF_WIDTH) }, { full: true, note })}
<p class="note">${BOUND_NOTE}</p>`;
}
