import * as Plot from '@observablehq/plot';
import type { HourOfDay } from '../hour-of-day.ts';
import { draw, HALF_WIDTH } from './draw.ts';
import { causeFill, INK, LINE } from './palette.ts';

/** Run hours by hour of the day, by cause; its hours stand under those of the year's drawing. */
export function hoursOfDayChart(rows: readonly HourOfDay[], label: string, paper: Document): SVGElement {
  return draw(paper, label, {
    width: HALF_WIDTH,
    height: 190,
    marginLeft: 34,
    marginRight: 28,
    marginTop: 22,
    marginBottom: 36,
    color: { type: 'identity' },
    x: { domain: [0, 24], axis: null },
    y: { axis: null, grid: false },
    marks: [
      Plot.gridY({ stroke: LINE, strokeOpacity: 1, ticks: 4 }),
      Plot.axisY({ ticks: 4, tickSize: 0, label: 'hours run', labelAnchor: 'top', labelArrow: 'none' }),
      Plot.axisX([0, 6, 12, 18, 24], {
        tickFormat: (hour: number) => String(hour).padStart(2, '0'),
        tickSize: 4,
        label: 'hour of the day',
        labelArrow: 'none',
        labelAnchor: 'center',
      }),
      Plot.rectY(rows as HourOfDay[], {
        x1: 'hour',
        x2: (row: HourOfDay) => row.hour + 1,
        y: 'runH',
        fill: (row: HourOfDay) => causeFill(row.cause, true),
        order: null,
        insetLeft: 0.7,
        insetRight: 0.7,
      }),
      Plot.ruleY([0], { stroke: INK }),
    ],
  });
}
