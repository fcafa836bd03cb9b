import type { AlternativeResult } from '../../scenarios/study.ts';
import { darkWeekChart } from '../charts/dark-week.ts';
import { FULL_WIDTH, HALF_WIDTH } from '../charts/draw.ts';
import { type Html, html } from '../html.ts';
import { darkWeekTitle } from '../titles.ts';
import type { StudyView } from '../view.ts';
import { figureBox } from './figure-box.ts';

/** The seven days with the least margin, step by step; the whole run where it is shorter than a week. */
export function darkWeekPart(view: StudyView, result: AlternativeResult, paper: Document): Html {
  const { darkWeek } = result;
  const from = darkWeek?.fromStep ?? 0;
  const to = darkWeek?.toStep ?? result.ledger.count;
  const title = darkWeekTitle(view, result);
  const draw = (width: number) => darkWeekChart(view, result, from, to, width, title, paper);
  const note = `All powers are drawn to one scale; the mean of each moment is filled, a thin line marks the highest${
    darkWeek
      ? '. The dark week is the seven days in which the array’s output on offer falls furthest short of the load'
      : ''
  }.`;
  return html`<h3>${darkWeek ? 'The dark week' : 'Step by step'}</h3>
${figureBox(title, { wide: draw(FULL_WIDTH), narrow: draw(HALF_WIDTH) }, { full: true, note })}`;
}
