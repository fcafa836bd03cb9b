import * as Plot from '@observablehq/plot';
import type { Period } from '../visit/periods.ts';
import { draw } from './draw.ts';
import { GENERATOR, INK, LINE, LOAD, SOFT } from './palette.ts';

/** Room of one label along the axis [px]. */
const LABEL_PX = 44;
const SIDE_PX = 38;

/**
 * What the generator gave a day, month by month or week by week: promised (light) beside used (dark). A dash stands
 * where no day can be compared.
 */
export function promisedUsedChart(
  periods: readonly Period[],
  size: { width: number; height: number },
  label: string,
  paper: Document,
): SVGElement {
  const rows = periods.map((period, i) => ({ ...period, i }));
  const known = rows.filter(({ compared }) => compared > 0);
  const most = Math.max(1e-9, ...known.flatMap(({ designedKwh, ranKwh }) => [designedKwh, ranKwh]));
  const every = Math.max(1, Math.ceil((LABEL_PX * rows.length) / (size.width - SIDE_PX)));
  const bar = (from: number, to: number, value: 'designedKwh' | 'ranKwh', fill: string) =>
    Plot.rect(known, {
      x1: ({ i }) => i + from,
      x2: ({ i }) => i + to,
      y1: 0,
      y2: value,
      fill,
      stroke: INK,
      strokeWidth: 0.7,
    });
  return draw(paper, label, {
    ...size,
    ...{ marginLeft: SIDE_PX, marginRight: 2, marginTop: 20, marginBottom: 22 },
    x: { axis: null, domain: [0, Math.max(1, rows.length)] },
    y: { axis: null, domain: [0, most * 1.05] },
    marks: [
      Plot.gridY({ stroke: LINE, strokeOpacity: 1, ticks: 4 }),
      Plot.axisY({ ticks: 4, tickSize: 0, label: null }),
      Plot.text(['kWh a day'], {
        frameAnchor: 'top-left',
        dx: -SIDE_PX,
        dy: -17,
        textAnchor: 'start',
        text: (unit) => unit,
        fill: INK,
      }),
      bar(0.1, 0.48, 'designedKwh', LOAD),
      bar(0.48, 0.86, 'ranKwh', GENERATOR),
      Plot.text(
        rows.filter(({ compared }) => compared === 0),
        { x: ({ i }) => i + 0.48, y: 0, dy: -7, text: () => '–', fill: SOFT },
      ),
      Plot.text(
        rows.filter(({ i }) => i % every === 0),
        { x: ({ i }) => i + 0.48, y: 0, dy: 13, text: 'label', fill: INK },
      ),
      Plot.ruleY([0], { stroke: INK }),
    ],
  });
}
