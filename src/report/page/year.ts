import type { AlternativeResult } from '../../scenarios/study.ts';
import { START_CAUSES } from '../../sim/causes.ts';
import { causeFill, DAYLIGHT, SOC_LABELS, SOC_STEPS, UNSERVED_LINE } from '../charts/palette.ts';
import { yearSpan } from '../charts/year-frame.ts';
import { yearRunsChart } from '../charts/year-runs.ts';
import { yearSocChart } from '../charts/year-soc.ts';
import { hasArray, hasBattery, hasGenerator } from '../facts.ts';
import { type Html, html } from '../html.ts';
import { monthRows } from '../months.ts';
import { yearOutagesTitle, yearRunsTitle, yearSocTitle } from '../titles.ts';
import { dayMonth, type StudyView } from '../view.ts';
import { START_LABELS } from '../words.ts';
import { figureBox, type KeyEntry } from './figure-box.ts';

/** The whole year, a row a day: generator runs beside state of charge. */
export function yearPart(view: StudyView, result: AlternativeResult, paper: Document): Html | null {
  const hasRuns = hasGenerator(result) || result.ledger.outages.length > 0;
  if (!hasRuns && !hasBattery(result)) return null;
  const span = yearSpan(view, result);
  const cut = span.cut
    ? ` Drawn are the 365 days around the dark week, from ${dayMonth(span.firstDay * 86_400_000)}.`
    : '';
  return html`<h3>The year, day by day</h3>
<p class="soft lead">Each row is a day, from midnight at the left to midnight at the right.${cut}</p>
<div class="pair">${hasRuns ? runsBox(view, result, paper) : null}${hasBattery(result) ? socBox(view, result, paper) : null}</div>`;
}

function runsBox(view: StudyView, result: AlternativeResult, paper: Document): Html {
  const title = hasGenerator(result)
    ? yearRunsTitle(view, result, monthRows(view, result))
    : yearOutagesTitle(view, result);
  const { startsByCause } = result.ledger.totals;
  const key: KeyEntry[] = START_CAUSES.filter((cause) => startsByCause[cause] > 0).map((cause) => ({
    fill: causeFill(cause, false),
    text: START_LABELS[cause],
  }));
  if (hasArray(result)) key.push({ fill: DAYLIGHT, text: 'array lit' });
  if (result.ledger.outages.length > 0)
    key.push({ fill: UNSERVED_LINE, text: 'load unserved; the right edge marks the day' });
  return figureBox(title, { wide: yearRunsChart(view, result, title, paper) }, { key });
}

function socBox(view: StudyView, result: AlternativeResult, paper: Document): Html {
  const title = yearSocTitle(view, result);
  const key = SOC_STEPS.map((fill, i) => ({ fill, text: SOC_LABELS[i] }));
  return figureBox(title, { wide: yearSocChart(view, result, title, paper) }, { key });
}
