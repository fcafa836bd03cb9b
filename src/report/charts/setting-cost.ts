import * as Plot from '@observablehq/plot';
import type { TunedSetting } from '../../scenarios/many/tune-result.ts';
import { digits } from '../numbers.ts';
import { axisUnit, bareValue } from '../tune/rule-words.ts';
import { draw, HALF_WIDTH } from './draw.ts';
import { BATTERY, INK, LINE, PAPER, SOFT } from './palette.ts';

/** What the y axis shows, the same for all settings of a page. */
export interface CostScale {
  /** cost of the chosen set, and the top of the band around it */
  best: number;
  bandTop: number;
  /** dearer values leave the drawing */
  most: number;
  currency: string;
}

const HEIGHT = 210;
/** As many labels fit below the axis, of this many characters together. */
const LABEL_CHARACTERS = 38;

interface Point {
  place: number;
  cost: number;
  keeps: boolean;
}

/**
 * Cost of all values of one setting, the others as chosen: the band of 1 %, the stretch of values within it, the
 * chosen value and today's. Values that break a limit are hollow.
 */
export function settingCostChart(
  setting: TunedSetting,
  { best, bandTop, most, currency }: CostScale,
  label: string,
  paper: Document,
): SVGElement {
  const { rule, values, curve, flat, chosen, today } = setting;
  const points: Point[] = curve.flatMap(({ cost, broken }, place) =>
    cost === null ? [] : [{ place, cost, keeps: broken.length === 0 }],
  );
  const least = best - (most - best) * 0.16;
  const inside = points.filter(({ cost }) => cost <= most && cost >= least);
  const middle = (place: number) => place + 0.5;
  const ticks = ticksOf(values.map((value) => bareValue(rule, value)));
  return draw(paper, label, {
    width: HALF_WIDTH,
    height: HEIGHT,
    marginLeft: 58,
    marginRight: 14,
    marginTop: 24,
    marginBottom: 36,
    x: { domain: [0, values.length], axis: null },
    y: { domain: [least, most], axis: null },
    marks: [
      Plot.rect([0], { x1: 0, x2: values.length, y1: best, y2: bandTop, fill: LINE }),
      Plot.axisY({
        ticks: 4,
        tickSize: 0,
        tickFormat: (value: number) => digits(value),
        label: `${currency} after the start`,
        labelAnchor: 'top',
        labelArrow: 'none',
      }),
      Plot.axisX(
        ticks.map((place) => middle(place)),
        {
          tickSize: 4,
          tickFormat: (at: number) => bareValue(rule, values[at - 0.5]),
          label: axisUnit(rule),
          labelArrow: 'none',
          labelAnchor: 'right',
        },
      ),
      Plot.ruleX([middle(today)], { stroke: SOFT, strokeDasharray: '2 3' }),
      Plot.text(['today'], {
        x: middle(today),
        y: most,
        text: (each) => each,
        dx: today > values.length / 2 ? -4 : 4,
        dy: 5,
        fill: SOFT,
        stroke: PAPER,
        strokeWidth: 3,
        textAnchor: today > values.length / 2 ? 'end' : 'start',
      }),
      Plot.lineY(inside, { x: ({ place }: Point) => middle(place), y: 'cost', stroke: SOFT, strokeWidth: 1 }),
      Plot.dot(inside, {
        x: ({ place }: Point) => middle(place),
        y: 'cost',
        r: 2.6,
        fill: ({ keeps }: Point) => (keeps ? INK : PAPER),
        stroke: INK,
        strokeWidth: 1,
      }),
      Plot.ruleY([least], { x1: flat.from, x2: flat.to + 1, stroke: BATTERY, strokeWidth: 7 }),
      Plot.ruleY([least], { stroke: INK }),
      Plot.dot([best], {
        x: middle(chosen),
        y: (cost: number) => cost,
        r: 6,
        symbol: 'diamond',
        fill: INK,
        stroke: PAPER,
        strokeWidth: 1.5,
      }),
    ],
  });
}

/** Places whose labels fit side by side, evenly apart. */
function ticksOf(labels: readonly string[]): number[] {
  const longest = Math.max(...labels.map((text) => text.length)) + 1;
  const every = Math.ceil((labels.length * longest) / LABEL_CHARACTERS);
  return labels.flatMap((_, place) => (place % every === 0 ? [place] : []));
}
