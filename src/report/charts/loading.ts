import * as Plot from '@observablehq/plot';
import { draw, HALF_WIDTH } from './draw.ts';
import { GENERATOR, INK, LINE, WARNED } from './palette.ts';

/** Tenths of the rating that count as low load: below 30 %. */
const LOW_TENTHS = 3;

/** Hours on load by tenths of the generator's rating; those below 30 % are hatched. */
export function loadingChart(loadingH: readonly number[], label: string, paper: Document): SVGElement {
  const rows = loadingH.map((hours, tenth) => ({
    hours,
    from: tenth * 10,
    to: tenth * 10 + 10,
    low: tenth < LOW_TENTHS,
  }));
  return draw(paper, label, {
    width: HALF_WIDTH,
    height: 190,
    marginLeft: 40,
    marginRight: 20,
    marginTop: 22,
    marginBottom: 36,
    color: { type: 'identity' },
    x: { domain: [0, 100], axis: null },
    y: { axis: null },
    marks: [
      Plot.gridY({ stroke: LINE, strokeOpacity: 1, ticks: 4 }),
      Plot.axisY({ ticks: 4, tickSize: 0, label: 'hours on load', labelAnchor: 'top', labelArrow: 'none' }),
      Plot.axisX([0, 20, 40, 60, 80, 100], {
        tickSize: 4,
        label: 'load, % of the rating',
        labelArrow: 'none',
        labelAnchor: 'center',
      }),
      Plot.rect(rows, {
        x1: 'from',
        x2: 'to',
        y1: 0,
        y2: 'hours',
        fill: ({ low }) => (low ? WARNED : GENERATOR),
        insetLeft: 1,
        insetRight: 1,
      }),
      Plot.ruleY([0], { stroke: INK }),
    ],
  });
}
