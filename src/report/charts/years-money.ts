import * as Plot from '@observablehq/plot';
import type { Money, YearOfMoney } from '../../scenarios/money.ts';
import { draw, HALF_WIDTH } from './draw.ts';
import { ARRAY, BATTERY, CALLED, GENERATOR, INK, LINE, LOAD, SAVED, UNSERVED } from './palette.ts';

type PartKey = 'fuel' | 'service' | 'unserved' | 'visits' | 'overhaul' | 'battery' | 'residual';

/** What is paid after the start, in the order of the stack. */
export const MONEY_PARTS: { key: PartKey; name: string; fill: string }[] = [
  { key: 'fuel', name: 'fuel', fill: GENERATOR },
  { key: 'service', name: 'service', fill: ARRAY },
  { key: 'unserved', name: 'load unserved', fill: UNSERVED },
  { key: 'visits', name: 'call-outs', fill: CALLED },
  { key: 'overhaul', name: 'overhaul', fill: LOAD },
  { key: 'battery', name: 'battery', fill: BATTERY },
  { key: 'residual', name: 'worth left at the end', fill: SAVED },
];

/** The parts that are not nothing in every year. */
export function partsPaid(money: Money): typeof MONEY_PARTS {
  return MONEY_PARTS.filter(({ key }) => money.cashFlow.some((year) => year[key] !== 0));
}

/** What is paid in each year after the start, by what for, in today's money. */
export function yearsMoneyChart(money: Money, currency: string, label: string, paper: Document): SVGElement {
  const years = money.cashFlow.filter(({ year }) => year > 0);
  const bars = partsPaid(money).flatMap(({ key, fill }) =>
    years
      .filter((year) => year[key] !== 0)
      .map((year: YearOfMoney) => ({ year: year.year, paid: year[key], fill })),
  );
  return draw(paper, label, {
    width: HALF_WIDTH,
    height: 220,
    marginLeft: 56,
    marginRight: 14,
    marginTop: 22,
    marginBottom: 36,
    color: { type: 'identity' },
    x: { domain: [0.5, money.years + 0.5], axis: null },
    y: { axis: null },
    marks: [
      Plot.gridY({ stroke: LINE, strokeOpacity: 1, ticks: 4 }),
      Plot.axisY({ ticks: 4, tickSize: 0, label: currency, labelAnchor: 'top', labelArrow: 'none' }),
      Plot.axisX({
        ticks: Math.min(10, money.years),
        tickSize: 4,
        label: 'year',
        labelArrow: 'none',
        labelAnchor: 'center',
        tickFormat: 'd',
      }),
      Plot.rectY(bars, {
        x1: ({ year }) => year - 0.5,
        x2: ({ year }) => year + 0.5,
        y: 'paid',
        fill: 'fill',
        stroke: INK,
        strokeWidth: 0.4,
        insetLeft: 1,
        insetRight: 1,
        order: null,
      }),
      Plot.ruleY([0], { stroke: INK }),
    ],
  });
}
