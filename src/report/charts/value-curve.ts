import * as Plot from '@observablehq/plot';
import { CELLS, draw, FONT_PX } from './draw.ts';
import { GENERATOR, INK, LINE, PAPER, SOFT, UNSERVED_LINE } from './palette.ts';

export interface CurvePoint {
  /** place on the axis, or its number */
  x: number;
  value: number;
  short: boolean;
}

/** One figure over one number of a site. */
export interface ValueCurve {
  title: string;
  /** of the values along the axis, where it is one of choices; null: numbers */
  labels: readonly string[] | null;
  points: readonly CurvePoint[];
  unit: string;
  tickText: (value: number) => string;
  /** where the site as filed lies; null: outside */
  filedX: number | null;
  best: CurvePoint | null;
}

/** A line through the values (dots on stalks for choices), the site as filed a dashed rule, the best a star. */
export function valueCurveChart(
  curve: ValueCurve,
  width: number,
  label: string,
  paper: Document,
): SVGElement {
  const { labels, points, unit, tickText, filedX, best } = curve;
  const low = Math.min(...points.map(({ value }) => value));
  const high = Math.max(...points.map(({ value }) => value));
  const pad = high > low ? (high - low) * 0.12 : Math.max(1, Math.abs(high) * 0.1);
  const floor = low - pad;
  const at = { x: 'x', y: 'value' } as const;
  const cellPx = (width - 90) / (labels?.length ?? 1);
  return draw(paper, label, {
    width,
    height: 230,
    marginLeft: 64,
    marginRight: 20,
    marginTop: 26,
    marginBottom: labels ? 62 : 44,
    x: labels ? { domain: [-0.5, labels.length - 0.5], axis: null } : { axis: null, inset: 10 },
    y: { domain: [floor, high + pad], axis: null },
    marks: [
      Plot.gridY({ stroke: LINE, strokeOpacity: 1, ticks: 4 }),
      Plot.axisY({
        ticks: 4,
        tickSize: 0,
        tickFormat: tickText,
        label: unit,
        labelAnchor: 'top',
        labelArrow: 'none',
      }),
      labels
        ? Plot.text(labels as string[], {
            x: (_, i) => i,
            text: (text) => text,
            frameAnchor: 'bottom',
            dy: 6,
            lineAnchor: 'top',
            lineWidth: Math.max(40, cellPx) / FONT_PX,
            fill: INK,
          })
        : Plot.axisX({
            ticks: Math.min(8, width / 60),
            tickSize: 4,
            label: curve.title,
            labelArrow: 'none',
            labelAnchor: 'center',
          }),
      ...(filedX === null
        ? []
        : [Plot.ruleX([filedX], { stroke: SOFT, strokeDasharray: '5 3', strokeWidth: 1.6 })]),
      labels
        ? Plot.ruleX(points as CurvePoint[], {
            x: 'x',
            y1: floor,
            y2: 'value',
            stroke: GENERATOR,
            strokeWidth: 2,
          })
        : Plot.lineY(points as CurvePoint[], { ...at, stroke: GENERATOR, strokeWidth: 2 }),
      Plot.dot(points as CurvePoint[], {
        ...at,
        r: points.length > 60 ? 0 : 3.5,
        fill: ({ short }: CurvePoint) => (short ? PAPER : GENERATOR),
        stroke: ({ short }: CurvePoint) => (short ? UNSERVED_LINE : GENERATOR),
        strokeWidth: 1.6,
        className: CELLS,
      }),
      ...(best
        ? [Plot.dot([best], { ...at, symbol: 'star', r: 7, fill: PAPER, stroke: INK, strokeWidth: 1.5 })]
        : []),
      Plot.ruleY([floor], { stroke: INK }),
    ],
  });
}
