import * as Plot from '@observablehq/plot';
import type { Band } from '../../scenarios/many/percentile.ts';
import { draw, HALF_WIDTH } from './draw.ts';
import { INK, LINE, LOAD, PAPER, SOFT } from './palette.ts';

/** One place along the drawing, and its band. */
export interface BandPlace {
  /** below it; empty: none */
  text: string;
  band: Band;
}

/**
 * Bands side by side: the box holds the middle 80 % (10 to 90 %), the bar across it is the middle value (50 %), the
 * thin line reaches from the least to the most.
 */
export function bandsChart(
  places: readonly BandPlace[],
  axis: { unit: string; under: string },
  label: string,
  paper: Document,
): SVGElement {
  const all = places.map(({ text, band }, i) => ({ ...band, text, i }));
  const most = Math.max(...all.map((each) => each.most), 1e-9);
  const half = 0.34;
  return draw(paper, label, {
    width: HALF_WIDTH,
    height: 230,
    marginLeft: 52,
    marginRight: 8,
    marginTop: 24,
    marginBottom: 36,
    x: { domain: [-0.6, places.length - 0.4], axis: null },
    y: { domain: [0, most * 1.04], axis: null },
    marks: [
      Plot.gridY({ stroke: LINE, strokeOpacity: 1, ticks: 4 }),
      Plot.axisY({ ticks: 4, tickSize: 0, label: axis.unit, labelAnchor: 'top', labelArrow: 'none' }),
      Plot.ruleX(all, { x: 'i', y1: 'least', y2: 'most', stroke: SOFT, strokeWidth: 1 }),
      Plot.rect(all, {
        x1: ({ i }) => i - half,
        x2: ({ i }) => i + half,
        y1: 'p10',
        y2: 'p90',
        fill: LOAD,
        stroke: INK,
        strokeWidth: 0.7,
      }),
      Plot.ruleY(all, {
        x1: ({ i }) => i - half,
        x2: ({ i }) => i + half,
        y: 'p50',
        stroke: INK,
        strokeWidth: 2.4,
      }),
      Plot.ruleY([0], { stroke: INK }),
      Plot.text(all, { x: 'i', y: 0, dy: 12, text: 'text', fill: INK }),
      Plot.text([axis.under], {
        frameAnchor: 'bottom',
        dy: 32,
        text: (each) => each,
        fill: INK,
        stroke: PAPER,
      }),
    ],
  });
}
