import * as Plot from '@observablehq/plot';
import { digits } from '../numbers.ts';
import { CELLS, pathMark } from './draw.ts';
import { INK, LINE, PAPER, SOFT } from './palette.ts';

/** A place in a drawing of two things weighed against each other. */
export interface At {
  x: number;
  y: number;
}

/** What part of them is drawn. */
export interface Span {
  x: [number, number];
  y: [number, number];
}

/** Below this width there is room for little beside the marks [px]. */
export const NARROW = 500;

export function axes(xLabel: string, yLabel: string, width: number, x: Span['x']): Plot.Markish[] {
  const ticks = width < NARROW ? 3 : 6;
  const decimals = x[1] - x[0] < 2 ? 2 : x[1] - x[0] < 8 ? 1 : 0;
  const tickFormat = (value: number) => digits(value);
  return [
    Plot.gridY({ stroke: LINE, strokeOpacity: 1, ticks: 5 }),
    Plot.axisY({ ticks: 5, tickSize: 0, tickFormat, label: yLabel, labelAnchor: 'top', labelArrow: 'none' }),
    Plot.axisX({
      ticks,
      tickSize: 4,
      tickFormat: (value: number) => digits(value, decimals),
      label: xLabel,
      labelArrow: 'none',
      labelAnchor: 'center',
    }),
    Plot.ruleY([0], { stroke: INK }),
  ];
}

/** All choices as one path of small squares: they may be thousands. */
export function cloudMark(points: readonly At[], { x: [x0, x1], y: [y0, y1] }: Span): Plot.RenderFunction {
  const inside = points.filter(({ x, y }) => x >= x0 && x <= x1 && y >= y0 && y <= y1);
  return pathMark({ stroke: SOFT, 'stroke-width': 2.2, 'stroke-linecap': 'round', opacity: 0.45 }, (x, y) =>
    inside.map((one) => `M${x(one.x).toFixed(1)} ${y(one.y).toFixed(1)}h0`).join(''),
  );
}

/** Whether a choice on a frontier has its place in the drawing. */
export function isWithin({ x, y }: At, span: Span): boolean {
  return x <= span.x[1] && y <= span.y[1] && y >= span.y[0];
}

export function frontierLine(points: readonly At[], span: Span, dash = ''): Plot.Markish {
  const inside = points.filter((one) => isWithin(one, span));
  return Plot.line(inside, { x: 'x', y: 'y', stroke: INK, strokeWidth: 1.8, strokeDasharray: dash });
}

/** Choices on a frontier, in the order given: the workbench can be pressed there. */
export function frontierDots(points: readonly At[]): Plot.Markish {
  return Plot.dot(points as At[], {
    ...{ x: 'x', y: 'y', r: 3.2, fill: INK, stroke: PAPER, strokeWidth: 0.8, className: CELLS },
  });
}

export function ownMarks(at: At, text: string, span: Span): Plot.Markish[] {
  return [
    Plot.dot([at], { x: 'x', y: 'y', r: 7, stroke: INK, strokeWidth: 2.4, fill: PAPER, fillOpacity: 0.6 }),
    labelAt(at, text, span, -1),
  ];
}

export function bestMarks(at: At, text: string, span: Span): Plot.Markish[] {
  return [
    Plot.dot([at], { x: 'x', y: 'y', r: 7, symbol: 'diamond', fill: INK, stroke: PAPER, strokeWidth: 1.5 }),
    labelAt(at, text, span, 1),
  ];
}

/** Beside a mark, inwards from the nearer side; above (-1) or below (1) it. */
function labelAt({ x, y }: At, text: string, span: Span, side: 1 | -1): Plot.Markish {
  const isRight = x > (span.x[0] + span.x[1]) / 2;
  return Plot.text([text], {
    x,
    y,
    text: (each) => each,
    dx: isRight ? -11 : 11,
    dy: 13 * side,
    textAnchor: isRight ? 'end' : 'start',
    fontWeight: 600,
    fill: INK,
    stroke: PAPER,
    strokeWidth: 4,
  });
}
