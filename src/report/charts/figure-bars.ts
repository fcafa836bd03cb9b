import * as Plot from '@observablehq/plot';
import type { ComparisonRow } from '../comparison-table.ts';
import { draw, HALF_WIDTH } from './draw.ts';
import { GENERATOR, INK, LOAD, SAVED, SOFT } from './palette.ts';

const ROW_PX = 38;
const LABEL_PX = 18;

/**
 * One figure of every alternative as bars against the first: a line stands where the first ends; what is saved
 * against it is hatched, what is more is dark.
 */
export function figureBarsChart(
  row: ComparisonRow,
  names: readonly string[],
  label: string,
  paper: Document,
): SVGElement {
  const values = row.values.map((value) => value ?? 0);
  const first = values[0];
  const width = HALF_WIDTH;
  const low = Math.min(0, ...values);
  const high = Math.max(low + 1e-9, ...values);
  const xOf = (value: number) => ((value - low) / (high - low)) * (width - 2) + 1;
  const tops = values.map((_, i) => i * ROW_PX + LABEL_PX);
  const bars = values.flatMap((value, i) =>
    barParts(value, first).map((part) => ({ ...part, top: tops[i] })),
  );
  const texts = values.map((_, i) =>
    row.differenceTexts[i] ? `${row.texts[i]}  (${row.differenceTexts[i]})` : row.texts[i],
  );
  return draw(paper, label, {
    width,
    height: values.length * ROW_PX + 4,
    margin: 0,
    color: { type: 'identity' },
    x: { type: 'identity', axis: null },
    y: { type: 'identity', axis: null },
    marks: [
      Plot.rect(bars, {
        x1: ({ from }) => xOf(from),
        x2: ({ to }) => xOf(to),
        y1: 'top',
        y2: ({ top }) => top + 14,
        fill: 'fill',
        stroke: 'stroke',
        strokeWidth: 0.8,
      }),
      Plot.ruleX(tops, {
        x: xOf(first),
        y1: (top) => top - 2,
        y2: (top) => top + 16,
        stroke: INK,
        strokeDasharray: '3 2',
      }),
      Plot.ruleX(tops, { x: xOf(0), y1: (top) => top - 2, y2: (top) => top + 16, stroke: INK }),
      Plot.text(names as string[], {
        x: 1,
        y: tops.map((top) => top - 8),
        text: (name) => name,
        textAnchor: 'start',
        fill: INK,
      }),
      Plot.text(texts, {
        x: width - 1,
        y: tops.map((top) => top - 8),
        text: (text) => text,
        textAnchor: 'end',
        fill: (_, i) => (i === 0 ? SOFT : INK),
        fontWeight: 600,
      }),
    ],
  });
}

interface BarPart {
  from: number;
  to: number;
  fill: string;
  stroke: string;
}

/** A bar up to the lesser of value and first, and what is between them. */
function barParts(value: number, first: number): BarPart[] {
  const common = value > 0 === first > 0 ? (Math.abs(value) < Math.abs(first) ? value : first) : 0;
  const parts: BarPart[] = [{ from: Math.min(0, common), to: Math.max(0, common), fill: LOAD, stroke: INK }];
  if (value !== first) {
    const saved = Math.abs(value) < Math.abs(first);
    const [from, to] = saved ? [common, first] : [common, value];
    parts.push({
      from: Math.min(from, to),
      to: Math.max(from, to),
      fill: saved ? SAVED : GENERATOR,
      stroke: saved ? SOFT : INK,
    });
  }
  return parts;
}
