import * as Plot from '@observablehq/plot';
import { costShown, type SensitivityResult } from '../../scenarios/many/sensitivity.ts';
import { digits } from '../numbers.ts';
import { moves } from '../sensitivity/sentences.ts';
import { uncertainName, uncertainValue } from '../sensitivity/words.ts';
import { capital } from '../words.ts';
import { draw, FONT_PX } from './draw.ts';
import { INK, LINE, LOAD, PAPER, SOFT } from './palette.ts';

const ROW_PX = 44;
const TOP_PX = 30;
const SIDE_PX = 44;
/** Width of a letter, roughly, so that the values at both ends do not meet. */
const LETTER_PX = 6.4;

/**
 * How far every uncertain value moves the cost: a bar from the cost at its lowest (an open ring) to that at its
 * highest (a full dot), the widest on top; the line through all is the site as filed. Of two alternatives the
 * difference is drawn, and a thick line stands where they cost the same.
 */
export function rangesChart(
  { rows: all, filed, names }: SensitivityResult,
  currency: string,
  width: number,
  label: string,
  paper: Document,
): SVGElement {
  const rows = all.filter(moves);
  const ends = rows.map((row, i) => ({
    row,
    y: TOP_PX + i * ROW_PX + 28,
    low: costShown(row.atLow),
    high: costShown(row.atHigh),
  }));
  const base = costShown(filed);
  const values = [base, ...(names.length > 1 ? [0] : []), ...ends.flatMap(({ low, high }) => [low, high])];
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const span = Math.max(1, most - least);
  const xOf = (value: number) => SIDE_PX + ((value - least) / span) * (width - 2 * SIDE_PX);
  const bottom = TOP_PX + rows.length * ROW_PX;
  const ticks = ticksOf(least, most, width < 500 ? 3 : 6);
  const lowText = ({ row }: (typeof ends)[number]) => uncertainValue(row, row.low, currency);
  const highText = ({ row }: (typeof ends)[number]) => uncertainValue(row, row.high, currency);
  const dots = ends.flatMap((end) => [
    { x: xOf(end.low), y: end.y, fill: PAPER },
    { x: xOf(end.high), y: end.y, fill: INK },
  ]);
  const texts = ends.flatMap((end) => {
    const lowIsLeft = end.low <= end.high;
    const place = (x: number, isLeft: boolean, text: string) => {
      const out = text.length * LETTER_PX + 10;
      const room = isLeft ? x - out : width - x - out;
      // where there is no room beside the end, the value stands under it
      return room >= 0
        ? { x: x + (isLeft ? -9 : 9), y: end.y, text, anchor: isLeft ? 'end' : 'start' }
        : { x: isLeft ? 0 : width, y: end.y + 14, text, anchor: isLeft ? 'start' : 'end' };
    };
    return [place(xOf(end.low), lowIsLeft, lowText(end)), place(xOf(end.high), !lowIsLeft, highText(end))];
  });
  return draw(paper, label, {
    width,
    height: bottom + 16,
    margin: 0,
    color: { type: 'identity' },
    x: { type: 'identity', axis: null },
    y: { type: 'identity', axis: null },
    marks: [
      Plot.ruleX(ticks, { x: xOf, y1: TOP_PX - 10, y2: bottom, stroke: LINE }),
      Plot.text(ticks, { x: xOf, y: TOP_PX - 18, text: (value) => digits(value), fill: SOFT }),
      Plot.text([currency], { x: 0, y: TOP_PX - 18, text: (each) => each, textAnchor: 'start', fill: SOFT }),
      Plot.ruleX([base], { x: xOf, y1: TOP_PX - 10, y2: bottom, stroke: INK, strokeDasharray: '5 3' }),
      Plot.ruleX(names.length > 1 ? [0] : [], {
        x: xOf,
        y1: TOP_PX - 10,
        y2: bottom,
        stroke: INK,
        strokeWidth: 3,
      }),
      Plot.rect(ends, {
        x1: ({ low, high }) => xOf(Math.min(low, high)),
        x2: ({ low, high }) => xOf(Math.max(low, high)),
        y1: ({ y }) => y - 5,
        y2: ({ y }) => y + 5,
        fill: LOAD,
        stroke: INK,
        strokeWidth: 0.8,
      }),
      Plot.dot(dots, { x: 'x', y: 'y', r: 4.5, fill: 'fill', stroke: INK, strokeWidth: 1.6 }),
      ...(['start', 'end'] as const).map((anchor) =>
        Plot.text(
          texts.filter((each) => each.anchor === anchor),
          {
            x: 'x',
            y: 'y',
            text: 'text',
            textAnchor: anchor,
            fill: INK,
            stroke: PAPER,
            strokeWidth: 4,
            fontSize: FONT_PX,
          },
        ),
      ),
      Plot.text(ends, {
        x: 0,
        y: ({ y }) => y - 16,
        text: ({ row }) => capital(uncertainName(row)),
        textAnchor: 'start',
        fontWeight: 600,
        fill: INK,
        stroke: PAPER,
        strokeWidth: 4,
      }),
    ],
  });
}

/** Round numbers between two ends. */
function ticksOf(least: number, most: number, count: number): number[] {
  const rough = Math.max(1e-9, most - least) / count;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((times) => times * power).find((each) => each >= rough) ?? rough;
  const first = Math.ceil(least / step);
  return Array.from({ length: Math.floor(most / step) - first + 1 }, (_, i) => (first + i) * step);
}
