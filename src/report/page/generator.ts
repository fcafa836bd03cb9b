import type { AlternativeResult } from '../../scenarios/study.ts';
import { START_CAUSES } from '../../sim/causes.ts';
import { hoursOfDayChart } from '../charts/hours-of-day.ts';
import { loadingChart } from '../charts/loading.ts';
import { causeFill, GENERATOR, WARNED } from '../charts/palette.ts';
import { runHoursByHour } from '../hour-of-day.ts';
import { type Html, html } from '../html.ts';
import { hoursOfDayTitle, loadingTitle } from '../titles.ts';
import type { StudyView } from '../view.ts';
import { whyAndWhatThen } from '../why.ts';
import { START_LABELS } from '../words.ts';
import { GENERATOR_CARE } from './cautions.ts';
import { figureBox } from './figure-box.ts';
import { peakNote } from './heading.ts';
import { runList } from './runs.ts';
import { startStoriesPart } from './start-stories.ts';

/** When the generator runs, how hard, why, and what would change that; then every run. */
export function generatorPart(view: StudyView, result: AlternativeResult, paper: Document): Html | null {
  if (result.plant.generator === null)
    return html`<h3>Generator</h3><p>There is none in this alternative.</p>`;
  const why = whyAndWhatThen(view, result);
  return html`<h3>When and why the generator starts</h3>
<ul>${why.map((sentence) => html`<li>${sentence}</li>`)}</ul>
${result.ledger.totals.startsByCause.peak > 0 ? peakNote(view) : null}
${result.ledger.runs.length > 0 ? runPictures(view, result, paper) : null}
${startStoriesPart(view, result)}
${GENERATOR_CARE}
${runList(view, result)}`;
}

function runPictures(view: StudyView, result: AlternativeResult, paper: Document): Html {
  const rows = runHoursByHour(view, result.ledger.runs);
  const hoursTitle = hoursOfDayTitle(result, rows);
  const causes = START_CAUSES.filter((cause) => result.ledger.totals.startsByCause[cause] > 0);
  const key = causes.map((cause) => ({ fill: causeFill(cause, true), text: START_LABELS[cause] }));
  const loading = loadingTitle(result);
  const { loadingH } = result.ledger.totals;
  return html`<div class="pair">${figureBox(hoursTitle, { wide: hoursOfDayChart(rows, hoursTitle, paper) }, { key })}
${figureBox(
  loading,
  { wide: loadingChart(loadingH, loading, paper) },
  {
    key: [
      { fill: WARNED, text: 'below 30 %' },
      { fill: GENERATOR, text: '30 % and more' },
    ],
  },
)}</div>`;
}
