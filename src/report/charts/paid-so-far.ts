import * as Plot from '@observablehq/plot';
import { digits } from '../numbers.ts';
import { draw } from './draw.ts';
import { INK, LINE, PAPER, SOFT } from './palette.ts';

/** Dashes and widths that tell the lines apart without colour. */
const DASHES = ['', '7 3', '2 3', '10 3 2 3', '14 4', '4 2 1 2'];

export interface PaidLine {
  name: string;
  /** present value of all that was paid up to the end of each year, year 0 first */
  paid: number[];
}

const LABEL_GAP_PX = 15;

/** What each alternative has cost up to every year, discounted, so that each line ends at its life-cycle cost. */
export function paidSoFarChart(
  lines: readonly PaidLine[],
  currency: string,
  width: number,
  label: string,
  paper: Document,
): SVGElement {
  const height = 300;
  const [marginTop, marginBottom, marginLeft] = [22, 36, 62];
  const marginRight = width < 500 ? 16 : 230;
  const years = lines[0].paid.length - 1;
  const most = Math.max(...lines.flatMap(({ paid }) => paid)) * 1.05;
  const points = lines.flatMap(({ paid }, i) => paid.map((value, year) => ({ year, value, i })));
  const yOf = (value: number) => marginTop + (1 - value / most) * (height - marginTop - marginBottom);
  return draw(paper, label, {
    width,
    height,
    marginTop,
    marginBottom,
    marginLeft,
    marginRight,
    x: { domain: [0, years], axis: null },
    y: { domain: [0, most], axis: null },
    marks: [
      Plot.gridY({ stroke: LINE, strokeOpacity: 1, ticks: 5 }),
      Plot.axisY({ ticks: 5, tickSize: 0, label: currency, labelAnchor: 'top', labelArrow: 'none' }),
      Plot.axisX({
        ticks: Math.min(10, years),
        tickSize: 4,
        label: 'year',
        labelArrow: 'none',
        labelAnchor: 'center',
        tickFormat: 'd',
      }),
      ...lines.map((_, i) =>
        Plot.lineY(
          points.filter((point) => point.i === i),
          {
            x: 'year',
            y: 'value',
            stroke: INK,
            strokeWidth: i === 0 ? 2.6 : 1.6,
            strokeDasharray: DASHES[i % DASHES.length],
          },
        ),
      ),
      width < 500 ? keyMarks(lines, marginLeft, marginTop) : endLabels(lines, years, yOf),
      Plot.ruleY([0], { stroke: INK }),
    ],
  });
}

/** Names at the lines' ends, moved apart where they would meet. */
function endLabels(lines: readonly PaidLine[], years: number, yOf: (value: number) => number): Plot.Markish {
  const ends = lines
    .map(({ name, paid }) => ({
      text: `${name}, ${digits(paid[years])}`,
      value: paid[years],
      y: yOf(paid[years]),
    }))
    .sort((a, b) => a.y - b.y);
  for (let i = 1; i < ends.length; i++) ends[i].y = Math.max(ends[i].y, ends[i - 1].y + LABEL_GAP_PX);
  return ends.map(({ text, value, y }) =>
    Plot.text([text], {
      x: years,
      y: value,
      dy: y - yOf(value),
      dx: 8,
      text: (each) => each,
      textAnchor: 'start',
      fill: INK,
    }),
  );
}

/** On a narrow drawing: a key in the upper left, where the lines are still low. */
function keyMarks(lines: readonly PaidLine[], left: number, top: number): Plot.Markish {
  return lines.map(({ name, paid }, i) => [
    Plot.text([`${name}, ${digits(paid[paid.length - 1])}`], {
      frameAnchor: 'top-left',
      dx: 36,
      dy: 4 + i * LABEL_GAP_PX,
      text: (each) => each,
      textAnchor: 'start',
      fill: INK,
      stroke: PAPER,
      strokeWidth: 3,
    }),
    keyLine(left + 6, top + 10 + i * LABEL_GAP_PX, i),
  ]);
}

function keyLine(x: number, y: number, i: number): Plot.RenderFunction {
  return (_index, _scales, _values, _dimensions, context) => {
    const line = context.ownerSVGElement.ownerDocument.createElementNS('http://www.w3.org/2000/svg', 'path');
    line.setAttribute('d', `M${x} ${y}h24`);
    line.setAttribute('stroke', i === 0 ? INK : SOFT);
    line.setAttribute('stroke-width', i === 0 ? '2.6' : '1.6');
    if (DASHES[i % DASHES.length]) line.setAttribute('stroke-dasharray', DASHES[i % DASHES.length]);
    return line;
  };
}
