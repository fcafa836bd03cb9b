import type { Sweep } from '../../scenarios/many/sweep.ts';
import { type Html, html } from '../html.ts';
import { type AxisView, axisView } from './axis-view.ts';
import { measureRow, measuresOf } from './measures.ts';

/** The site as filed beside the cheapest variant that serves enough, in all figures. */
export function bestTable(sweep: Sweep, views: readonly AxisView[]): Html {
  const best = sweep.best === null ? null : sweep.cells[sweep.best];
  const outcomes = [sweep.filed, ...(best?.outcome ? [best.outcome] : [])];
  const filedText = (view: AxisView) => textOf(view, view.axis.filed);
  return html`<table class="side"><caption>Figures of the simulated period; money of the first year, or over the study.</caption>
<thead><tr><th scope="col">Figure</th><th scope="col">As filed</th>${best ? html`<th scope="col">Cheapest that serves enough</th>` : null}</tr></thead>
<tbody>${views.map(
    (
      view,
      i,
    ) => html`<tr><th scope="row">${view.title}</th><td>${filedText(view)}</td>${best ? html`<td>${textOf(view, view.axis.values[best.at[i]])}</td>` : null}</tr>
`,
  )}${measuresOf(sweep).map((measure) => {
    const { label, unit, texts } = measureRow(measure, outcomes, sweep);
    return html`<tr><th scope="row">${label}${unit ? `, ${unit}` : ''}</th>${texts.map((text) => html`<td>${text}</td>`)}</tr>
`;
  })}</tbody></table>`;
}

/** A value as the axis labels it. */
function textOf(view: AxisView, value: unknown): string {
  return axisView({ ...view.axis, values: [value] }).labels[0];
}
