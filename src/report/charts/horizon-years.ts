import * as Plot from '@observablehq/plot';
import type { HorizonAlternative, HorizonYear } from '../../scenarios/horizon-result.ts';
import { draw, HALF_WIDTH } from './draw.ts';
import { GENERATOR, INK, LINE, PAPER, SOFT, UNSERVED } from './palette.ts';

const FRAME = {
  width: HALF_WIDTH,
  height: 210,
  marginLeft: 52,
  marginRight: 14,
  marginTop: 24,
  marginBottom: 36,
};

/** Capacity left over the years, a fall by wear and a jump with every new battery; the first year is a point of 100 %. */
export function capacityChart({ years }: HorizonAlternative, label: string, paper: Document): SVGElement {
  const points = years.flatMap(({ year, battery }) =>
    (battery?.health ?? []).map(({ at, capacityFrac }) => ({
      year: year - 1 + at,
      percent: 100 * capacityFrac,
    })),
  );
  const replaced = years.flatMap(({ year, battery }) =>
    (battery?.replacedAt ?? []).map((at) => ({ year: year - 1 + at })),
  );
  const least = Math.min(...points.map(({ percent }) => percent));
  const floor = Math.max(0, Math.min(70, Math.floor(least / 10) * 10 - 10));
  return draw(paper, label, {
    ...FRAME,
    x: { domain: [0, years.length], axis: null },
    y: { domain: [floor, 104], axis: null },
    marks: [
      Plot.gridY({ stroke: LINE, strokeOpacity: 1, ticks: 4 }),
      Plot.axisY({
        ticks: 4,
        tickSize: 0,
        label: '% of the new capacity',
        labelAnchor: 'top',
        labelArrow: 'none',
      }),
      yearsAxis(years.length),
      Plot.ruleX(replaced, { x: 'year', stroke: SOFT, strokeDasharray: '2 3' }),
      Plot.lineY(points, { x: 'year', y: 'percent', stroke: INK, strokeWidth: 2 }),
      Plot.ruleY([floor], { stroke: INK }),
    ],
  });
}

/** A figure of every year as bars; the dashed line is the first year carried on. */
export function yearBarsChart(
  { years }: HorizonAlternative,
  shows: { of: (year: HorizonYear) => number; unit: string; most: number; fill: 'fuel' | 'unserved' },
  label: string,
  paper: Document,
): SVGElement {
  const { of, unit, most, fill } = shows;
  return draw(paper, label, {
    ...FRAME,
    x: { domain: [0, years.length], axis: null },
    y: { domain: [0, most * 1.06], axis: null },
    marks: [
      Plot.gridY({ stroke: LINE, strokeOpacity: 1, ticks: 4 }),
      Plot.axisY({ ticks: 4, tickSize: 0, label: unit, labelAnchor: 'top', labelArrow: 'none' }),
      yearsAxis(years.length),
      Plot.rectY(years, {
        x1: ({ year }: HorizonYear) => year - 1,
        x2: ({ year }: HorizonYear) => year,
        y: of,
        fill: fill === 'fuel' ? GENERATOR : UNSERVED,
        stroke: INK,
        strokeWidth: 0.4,
        insetLeft: 1.5,
        insetRight: 1.5,
      }),
      Plot.ruleY([of(years[0])], { stroke: PAPER, strokeWidth: 3 }),
      Plot.ruleY([of(years[0])], { stroke: INK, strokeWidth: 1.4, strokeDasharray: '6 3' }),
      Plot.ruleY([0], { stroke: INK }),
    ],
  });
}

/** Years as spans from one tick to the next: year 1 lies between 0 and 1. */
function yearsAxis(count: number): Plot.Markish {
  return Plot.axisX({
    ticks: Math.min(10, count),
    tickSize: 4,
    label: 'years from the start',
    labelArrow: 'none',
    labelAnchor: 'center',
    tickFormat: 'd',
  });
}
