import * as Plot from '@observablehq/plot';
import { draw } from './draw.ts';
import { GENERATOR, INK, LINE, LOAD, PAPER, SAVED, SOFT } from './palette.ts';

/** A bar of the way from what was promised to what was used. */
export interface CauseRow {
  text: string;
  /** as it is written at the end of the row */
  value: string;
  from: number;
  to: number;
  /** a whole (from nothing) or a step */
  whole: boolean;
}

const ROW_PX = 19;
const BAR_PX = 12;
const VALUE_PX = 66;
const TEXT_PX = 314;

/**
 * Steps from the promised to the used: wholes are light and begin at the line, steps up are dark, steps down hatched.
 * @param narrow texts stand above their bars, for a phone
 */
export function causeStepsChart(
  rows: readonly CauseRow[],
  { width, narrow }: { width: number; narrow: boolean },
  label: string,
  paper: Document,
): SVGElement {
  const ends = rows.flatMap(({ from, to }) => [from, to]);
  const [low, high] = [Math.min(0, ...ends), Math.max(1e-9, ...ends)];
  const left = narrow ? 2 : TEXT_PX;
  const xOf = (value: number) => left + ((value - low) / (high - low)) * (width - left - VALUE_PX);
  const rowPx = narrow ? 2 * ROW_PX - 4 : ROW_PX;
  const placed = rows.map((row, i) => ({ ...row, top: i * rowPx + (narrow ? 18 : 4) }));
  const joins = placed.slice(0, -1).map(({ to, top }) => ({ x: xOf(to), y1: top + BAR_PX, y2: top + rowPx }));
  const fillOf = ({ whole, from, to }: CauseRow) => (whole ? LOAD : to >= from ? GENERATOR : SAVED);
  return draw(paper, label, {
    width,
    height: rows.length * rowPx + (narrow ? 0 : 4),
    margin: 0,
    color: { type: 'identity' },
    x: { type: 'identity', axis: null },
    y: { type: 'identity', axis: null },
    marks: [
      Plot.ruleX([0], { x: xOf(0), y1: 0, y2: rows.length * rowPx, stroke: LINE }),
      Plot.rect(placed, {
        x1: ({ from, to }) => xOf(Math.min(from, to)),
        x2: ({ from, to }) => xOf(Math.max(from, to)),
        y1: 'top',
        y2: ({ top }) => top + BAR_PX,
        fill: fillOf,
        stroke: INK,
        strokeWidth: 0.8,
      }),
      Plot.ruleX(joins, { x: 'x', y1: 'y1', y2: 'y2', stroke: SOFT, strokeDasharray: '2 2' }),
      ...[true, false].flatMap((whole) => {
        const those = placed.filter((row) => row.whole === whole);
        const look = { fill: INK, stroke: PAPER, strokeWidth: 4, fontWeight: whole ? 600 : 400 };
        const y = ({ top }: { top: number }) => top + BAR_PX / 2;
        return [
          Plot.text(those, {
            ...look,
            x: 0,
            y: narrow ? ({ top }) => top - 9 : y,
            text: 'text',
            textAnchor: 'start',
          }),
          Plot.text(those, { ...look, x: width - 1, y, text: 'value', textAnchor: 'end' }),
        ];
      }),
    ],
  });
}
