import * as Plot from '@observablehq/plot';
import type { BreakEven } from '../../scenarios/many/break-even.ts';
import { axisUnit, axisValue, valueWords } from '../break-even/words.ts';
import { draw, HALF_WIDTH } from './draw.ts';
import { INK, LINE, PAPER, SOFT } from './palette.ts';

/** The cost of both over one value; a ring where they cost the same, a dotted line where the site file stands. */
export function breakEvenChart(
  { key, curve, crossings, filed, from, to }: BreakEven,
  names: readonly string[],
  currency: string,
  label: string,
  paper: Document,
): SVGElement {
  const points = [0, 1].map((side) =>
    curve.map(({ value, costs }) => ({ x: axisValue(key, value), y: costs[side] })),
  );
  const costs = points.flat().map(({ y }) => y);
  const [least, most] = [Math.min(...costs), Math.max(...costs)];
  const room = Math.max(1, (most - least) * 0.12);
  const places = crossings.map(({ value, costs: [a, b] }) => ({
    value,
    x: axisValue(key, value),
    y: (a + b) / 2,
  }));
  const middle = axisValue(key, (from + to) / 2);
  const inRange = filed >= from && filed <= to;
  return draw(paper, label, {
    width: HALF_WIDTH,
    height: 250,
    marginLeft: 60,
    marginRight: 16,
    marginTop: 42,
    marginBottom: 36,
    x: { domain: [axisValue(key, from), axisValue(key, to)], axis: null },
    y: { domain: [least - room, most + room], axis: null },
    marks: [
      Plot.gridY({ stroke: LINE, strokeOpacity: 1, ticks: 4 }),
      Plot.axisY({ ticks: 4, tickSize: 0, label: null }),
      Plot.axisX({
        ticks: 5,
        tickSize: 4,
        label: axisUnit(key, currency),
        labelArrow: 'none',
        labelAnchor: 'center',
      }),
      Plot.ruleX(inRange ? [axisValue(key, filed)] : [], {
        stroke: SOFT,
        strokeDasharray: '1 3',
        strokeWidth: 1.4,
      }),
      Plot.lineY(points[0], { x: 'x', y: 'y', stroke: INK, strokeWidth: 2.4 }),
      Plot.lineY(points[1], { x: 'x', y: 'y', stroke: INK, strokeWidth: 1.8, strokeDasharray: '7 3' }),
      Plot.dot(places, { x: 'x', y: 'y', r: 5, fill: PAPER, stroke: INK, strokeWidth: 2 }),
      ...(['start', 'end'] as const).map((textAnchor) =>
        Plot.text(
          places.filter(({ x }) => x > middle === (textAnchor === 'end')),
          {
            x: 'x',
            y: 'y',
            dx: textAnchor === 'start' ? 4 : -4,
            dy: 17,
            text: ({ value }) => valueWords(key, value, currency),
            textAnchor,
            fill: INK,
            stroke: PAPER,
            strokeWidth: 4,
            fontWeight: 600,
          },
        ),
      ),
      keyOf(names, currency),
    ],
  });
}

/** Which line is whose, above the drawing. */
function keyOf(names: readonly string[], currency: string): Plot.RenderFunction {
  return (_index, _scales, _values, _dimensions, context) => {
    const svg = context.ownerSVGElement.ownerDocument;
    const group = svg.createElementNS('http://www.w3.org/2000/svg', 'g');
    for (const [i, name] of names.entries()) {
      const y = 8 + 15 * i;
      const line = svg.createElementNS('http://www.w3.org/2000/svg', 'path');
      line.setAttribute('d', `M2 ${y}h26`);
      line.setAttribute('stroke', INK);
      line.setAttribute('stroke-width', i === 0 ? '2.4' : '1.8');
      if (i === 1) line.setAttribute('stroke-dasharray', '7 3');
      const text = svg.createElementNS('http://www.w3.org/2000/svg', 'text');
      text.setAttribute('x', '34');
      text.setAttribute('y', String(y + 4));
      text.setAttribute('fill', INK);
      text.setAttribute('text-anchor', 'start');
      text.textContent = i === 0 ? `${name} (${currency} over the study)` : name;
      group.append(line, text);
    }
    return group as SVGGElement;
  };
}
