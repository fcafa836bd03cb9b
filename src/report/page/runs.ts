import type { AlternativeResult } from '../../scenarios/study.ts';
import type { GeneratorRun } from '../../sim/ledger.ts';
import { hasBattery } from '../facts.ts';
import { type Html, html } from '../html.ts';
import { alone, digits, duration } from '../numbers.ts';
import { type RunMonth, runsByMonth } from '../run-table.ts';
import { localMs, type StudyView, shortDay, timeOfDay } from '../view.ts';
import { counted } from '../words.ts';
import { scrollable } from './figure-box.ts';

/** Every generator run, folded away by month. */
export function runList(view: StudyView, result: AlternativeResult): Html | null {
  const months = runsByMonth(view, result);
  if (months.length === 0) return null;
  return html`<h3>Every run of the generator</h3>
<p class="soft lead">A run belongs to the month in which it starts; its hours are those of the turning engine. Open a month for its runs.</p>
${months.map((month) => monthDetails(view, result, month))}`;
}

function monthDetails(view: StudyView, result: AlternativeResult, month: RunMonth): Html {
  const battery = hasBattery(result);
  const sums = `${counted(digits(month.runs), 'run')}, ${alone('hours', month.hours)}, ${alone('kwh', month.kwh)}, ${alone('litres', month.litres)}`;
  const table = html`<table><thead><tr><th scope="col">Start</th><th scope="col" class="text">Cause</th><th scope="col">Ran</th>${
    battery ? html`<th scope="col">Charge</th>` : null
  }<th scope="col">kWh</th><th scope="col">Mean load</th><th scope="col">Litres</th></tr></thead>
<tbody>${month.list.map((run) => runRow(view, result, run, battery))}</tbody></table>`;
  const left =
    month.left > 0
      ? html`<p class="soft">${counted(digits(month.left), 'shorter run')} not listed; the JSON output has them all.</p>`
      : null;
  return html`<details><summary><strong>${month.month}</strong>: ${sums}</summary>${scrollable(`Generator runs of ${month.month}`, table)}${left}</details>
`;
}

function runRow(view: StudyView, result: AlternativeResult, run: GeneratorRun, battery: boolean): Html {
  const ms = localMs(view, run.startH);
  const ratedKw = result.plant.generator?.ratedKw ?? 1;
  const percent = (soc: number) => digits(soc * 100);
  return html`<tr><td class="nobreak">${shortDay(ms)}, ${timeOfDay(ms)}</td><td class="text">${run.cause}${run.ranDry ? ', ran dry' : ''}</td><td>${duration(run.endH - run.startH)}</td>${
    battery ? html`<td>${percent(run.socStart)} to ${percent(run.socEnd)} %</td>` : null
  }<td>${digits(run.kwh, 1)}</td><td>${run.meanKw === null ? '–' : `${digits((run.meanKw / ratedKw) * 100)} %`}</td><td>${digits(run.litres, 1)}</td></tr>`;
}
