import * as Plot from '@observablehq/plot';
import { draw, IN_PIXELS } from './draw.ts';
import { GENERATOR, INK, LINE, LOAD, PAPER } from './palette.ts';

const INTERVAL_WIDTH = 150;
const HEIGHT = 14;
const MID = HEIGHT / 2;
/** Room for the arrow of an interval that goes on beyond the edge [px]. */
const EDGE_PX = 7;

/**
 * A value with its interval as shares of the designed value, on a scale that all rows of a table share: the upright
 * line is the designed value, the bar the interval, the dot the value. Arrows stand where it goes on beyond the edge.
 * @param isApart whether it is told as unlike its design: a dark bar and a full dot
 * @param spanFrac from the line to either edge, as a share of the designed value
 */
export function intervalChart(
  { value, low, high }: { value: number; low: number; high: number },
  spanFrac: number,
  isApart: boolean,
  label: string,
  paper: Document,
): SVGElement {
  const half = INTERVAL_WIDTH / 2 - EDGE_PX;
  const xOf = (share: number) =>
    INTERVAL_WIDTH / 2 + Math.max(-1, Math.min(1, (share - 1) / spanFrac)) * half;
  const bar = { x1: xOf(low), x2: Math.max(xOf(high), xOf(low) + 2) };
  const arrows = [
    ...(low < 1 - spanFrac ? [{ x: EDGE_PX - 5, text: '◂' }] : []),
    ...(high > 1 + spanFrac ? [{ x: INTERVAL_WIDTH - EDGE_PX + 5, text: '▸' }] : []),
  ];
  return draw(paper, label, {
    width: INTERVAL_WIDTH,
    height: HEIGHT,
    ...IN_PIXELS,
    marks: [
      Plot.ruleY([MID], { stroke: LINE }),
      Plot.rect([bar], {
        x1: 'x1',
        x2: 'x2',
        y1: MID - 3.5,
        y2: MID + 3.5,
        fill: isApart ? GENERATOR : LOAD,
        stroke: INK,
        strokeWidth: 0.7,
      }),
      Plot.ruleX([INTERVAL_WIDTH / 2], { y1: 0, y2: HEIGHT, stroke: INK, strokeWidth: 1.4 }),
      Plot.dot([value], {
        x: xOf,
        y: MID,
        r: isApart ? 3 : 2.6,
        ...(isApart ? { fill: INK, stroke: PAPER } : { fill: PAPER, stroke: INK }),
        strokeWidth: 1.2,
      }),
      Plot.text(arrows, { x: 'x', y: MID, text: 'text', fill: INK, fontSize: 10 }),
    ],
  });
}
