import * as Plot from '@observablehq/plot';
import { LOSS_GROUPS, type LossGroup, type LossRow } from '../array-losses.ts';
import { draw, HALF_WIDTH } from './draw.ts';
import { ARRAY, INK, LINE, SNOW, SOFT } from './palette.ts';

const ROW_PX = 20;

/** Fills that differ in lightness and pattern. */
export const LOSS_FILLS: Record<LossGroup, string> = { snow: SNOW, horizon: SOFT, converter: ARRAY };

/** Array energy that snow, horizon and converters keep from the site, month by month. */
export function arrayLossesChart(rows: readonly LossRow[], label: string, paper: Document): SVGElement {
  const parts = rows.flatMap((row) =>
    LOSS_GROUPS.map((group) => ({ month: row.short, kwh: row[group], fill: LOSS_FILLS[group] })),
  );
  return draw(paper, label, {
    width: HALF_WIDTH,
    height: rows.length * ROW_PX + 46,
    marginLeft: Math.max(...rows.map(({ short }) => short.length)) > 4 ? 64 : 36,
    marginRight: 14,
    marginTop: 22,
    marginBottom: 24,
    y: { domain: rows.map(({ short }) => short), axis: null, padding: 0 },
    x: { axis: null },
    color: { type: 'identity' },
    marks: [
      Plot.gridX({ stroke: LINE, strokeOpacity: 1, ticks: 4 }),
      Plot.axisX({ anchor: 'top', ticks: 4, tickSize: 0, label: null }),
      Plot.text(['kWh'], {
        frameAnchor: 'top-left',
        dx: -36,
        dy: -16,
        textAnchor: 'start',
        text: (unit) => unit,
        fill: INK,
      }),
      Plot.axisY({ tickSize: 0, label: null }),
      Plot.barX(
        parts.filter(({ kwh }) => kwh > 0),
        {
          y: 'month',
          x: 'kwh',
          fill: 'fill',
          stroke: INK,
          strokeWidth: 0.5,
          insetTop: 3,
          insetBottom: 3,
          order: null,
        },
      ),
      Plot.ruleX([0], { stroke: INK }),
    ],
  });
}
