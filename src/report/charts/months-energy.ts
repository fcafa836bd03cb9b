import * as Plot from '@observablehq/plot';
import type { MonthRow } from '../months.ts';
import { digits } from '../numbers.ts';
import { draw, HALF_WIDTH } from './draw.ts';
import { ARRAY, GENERATOR, INK, LINE, PAPER, UNSERVED } from './palette.ts';

const ROW_PX = 20;

interface Part {
  month: string;
  kwh: number;
  fill: string;
}

/** Energy of each month by where it came from, the load as a mark across the bar. */
export function monthsEnergyChart(rows: readonly MonthRow[], label: string, paper: Document): SVGElement {
  const parts: Part[] = rows.flatMap((row) => [
    { month: row.short, kwh: row.arrayKwh, fill: ARRAY },
    { month: row.short, kwh: row.generatorKwh, fill: GENERATOR },
    { month: row.short, kwh: row.unservedKwh, fill: UNSERVED },
  ]);
  return draw(paper, label, {
    ...monthFrame(rows),
    color: { type: 'identity' },
    marks: [
      ...monthAxes(),
      Plot.barX(
        parts.filter(({ kwh }) => kwh > 0),
        {
          y: 'month',
          x: 'kwh',
          fill: 'fill',
          stroke: INK,
          strokeWidth: 0.5,
          insetTop: 3,
          insetBottom: 3,
          order: null,
        },
      ),
      Plot.tickX(rows as MonthRow[], { y: 'short', x: 'loadKwh', stroke: PAPER, strokeWidth: 6 }),
      Plot.tickX(rows as MonthRow[], { y: 'short', x: 'loadKwh', stroke: INK, strokeWidth: 2.5 }),
    ],
  });
}

/** Fuel of each month, with its litres written at the bar. */
export function monthsFuelChart(rows: readonly MonthRow[], label: string, paper: Document): SVGElement {
  const most = Math.max(1e-9, ...rows.map(({ fuelL }) => fuelL));
  const decimals = most < 20 ? 1 : 0;
  return draw(paper, label, {
    ...monthFrame(rows),
    x: { axis: null, domain: [0, most * 1.32] },
    marks: [
      Plot.axisY({ tickSize: 0, label: null }),
      Plot.barX(rows as MonthRow[], { y: 'short', x: 'fuelL', fill: GENERATOR, insetTop: 3, insetBottom: 3 }),
      Plot.text(rows as MonthRow[], {
        y: 'short',
        x: 'fuelL',
        text: (row: MonthRow) =>
          row.fuelL > 0 ? `${digits(row.fuelL, decimals)} L in ${digits(row.runH, decimals)} h` : 'none',
        textAnchor: 'start',
        dx: 5,
        fill: INK,
      }),
      Plot.ruleX([0], { stroke: INK }),
    ],
  });
}

function monthFrame(rows: readonly MonthRow[]): Plot.PlotOptions {
  return {
    width: HALF_WIDTH,
    height: rows.length * ROW_PX + 46,
    marginLeft: Math.max(...rows.map(({ short }) => short.length)) > 4 ? 64 : 36,
    marginRight: 14,
    marginTop: 22,
    marginBottom: 24,
    y: { domain: rows.map(({ short }) => short), axis: null, padding: 0 },
    x: { axis: null },
  };
}

function monthAxes(): Plot.Markish[] {
  return [
    Plot.gridX({ stroke: LINE, strokeOpacity: 1, ticks: 4 }),
    Plot.axisX({ anchor: 'top', ticks: 4, tickSize: 0, label: null }),
    Plot.text(['kWh'], {
      frameAnchor: 'top-left',
      dx: -36,
      dy: -16,
      textAnchor: 'start',
      text: (unit) => unit,
      fill: INK,
    }),
    Plot.axisY({ tickSize: 0, label: null }),
    Plot.ruleX([0], { stroke: INK }),
  ];
}
