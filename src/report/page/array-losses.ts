import { ARRAY_LOSSES, type ArrayYield, lostKwh, sumOf } from '../../scenarios/array-yields.ts';
import type { AlternativeResult } from '../../scenarios/study.ts';
import {
  groupKwh,
  groupsWorthALine,
  LOSS_GROUPS,
  type LossRow,
  lossRows,
  wholeLoss,
} from '../array-losses.ts';
import { arrayLossesChart, LOSS_FILLS } from '../charts/array-losses.ts';
import { type Html, html } from '../html.ts';
import { digits } from '../numbers.ts';
import { arrayLossesTitle } from '../titles-array.ts';
import type { StudyView } from '../view.ts';
import { ARRAY_LOSS_LABELS, capital, LOSS_WHERE } from '../words.ts';
import { figureBox, scrollable } from './figure-box.ts';

/** What each array and other source offers, and what keeps the rest from the site; nothing where nothing does. */
export function arrayLossesPart(view: StudyView, result: AlternativeResult, paper: Document): Html | null {
  const { yields } = result;
  const losses = ARRAY_LOSSES.filter((loss) => lostKwh(yields, loss) > 0);
  if (groupsWorthALine(result).length === 0 && !yields.some(({ kind }) => kind === 'source')) return null;
  const rows = losses.length > 0 ? lossRows(view, result) : [];
  const hasSnow = groupKwh(result, 'snow') > 0;
  return html`<h3>What the arrays offer, and what is kept from the site</h3>
${rows.length > 0 ? html`<div class="pair top">${monthsBox(result, rows, paper)}${hasSnow ? html`<div>${scrollable('Energy lost to snow by array and month', snowTable(yields, rows))}</div>` : null}</div>` : null}
${scrollable('Energy offered and lost by array', yieldTable(yields, losses))}
<p class="note">All as it would arrive behind the converter: what is offered and what is lost together are what level ground, no snow and wide limits would give. What the site then turns away for want of use is told apart.</p>`;
}

function monthsBox(result: AlternativeResult, rows: readonly LossRow[], paper: Document): Html {
  const title = arrayLossesTitle(result, rows);
  const key = LOSS_GROUPS.filter((group) => groupKwh(result, group) > 0).map((group) => ({
    fill: LOSS_FILLS[group],
    text: `lost ${LOSS_WHERE[group]}`,
  }));
  return figureBox(title, { wide: arrayLossesChart(rows, title, paper) }, { key });
}

function yieldTable(yields: readonly ArrayYield[], losses: readonly (typeof ARRAY_LOSSES)[number][]): Html {
  const cell = (kwh: number) => html`<td>${digits(kwh)}</td>`;
  const rowOf = (name: string, of: readonly ArrayYield[]) =>
    html`<th scope="row">${name}</th>${cell(sumOf(of.map((one) => sumOf(one.offeredKwh))))}${losses.map((loss) => cell(lostKwh(of, loss)))}`;
  return html`<table class="short"><thead><tr><th scope="col">kWh</th><th scope="col">Offered</th>${losses.map((loss) => html`<th scope="col">${ARRAY_LOSS_LABELS[loss]}</th>`)}</tr></thead>
<tbody>${yields.map((one) => html`<tr>${rowOf(nameOf(one), [one])}</tr>`)}
${yields.length > 1 ? html`<tr class="whole">${rowOf('Together', yields)}</tr>` : null}</tbody></table>`;
}

/** "Barn", "stream (another source)". */
function nameOf({ name, kind }: ArrayYield): string {
  return kind === 'source' ? `${capital(name)} (another source)` : capital(name);
}

function snowTable(yields: readonly ArrayYield[], rows: readonly LossRow[]): Html {
  const shown = yields.flatMap((one, i) => (sumOf(one.lostKwh.snow) > 0 ? [i] : []));
  const cells = (row: Pick<LossRow, 'snowByArray'>) =>
    shown.map((i) => html`<td>${digits(row.snowByArray[i])}</td>`);
  return html`<table class="short"><thead><tr><th scope="col">Lost to snow, kWh</th>${shown.map((i) => html`<th scope="col">${capital(yields[i].name)}</th>`)}</tr></thead>
<tbody>${rows.filter(({ snow }) => snow > 0).map((row) => html`<tr><th scope="row">${row.name}</th>${cells(row)}</tr>`)}
<tr class="whole"><th scope="row">Together</th>${cells(wholeLoss(rows))}</tr></tbody></table>`;
}
