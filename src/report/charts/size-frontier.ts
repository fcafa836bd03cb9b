import * as Plot from '@observablehq/plot';
import type { CloudPoint, Sized, SizeResult } from '../../scenarios/many/size-result.ts';
import { uniformPresentValue } from '../../scenarios/present-value.ts';
import { digits } from '../numbers.ts';
import { draw } from './draw.ts';
import { INK, PAPER, SOFT } from './palette.ts';
import {
  type At,
  axes,
  bestMarks,
  cloudMark,
  frontierDots,
  frontierLine,
  isWithin,
  NARROW,
  ownMarks,
  type Span,
} from './size-marks.ts';

const HEIGHT = 380;
const FRAME = { height: HEIGHT, marginLeft: 66, marginRight: 18, marginTop: 26, marginBottom: 40 };

/**
 * Capital against what is paid every year after it, of all choices that keep the limits: the frontier, the own choice
 * and the cheapest, with the line along which everything costs as much over the study.
 */
export function costFrontierChart(
  result: SizeResult,
  width: number,
  label: string,
  paper: Document,
): SVGElement {
  const { frontier, cheapest, own, site, discountRate, years, cloud } = result;
  const at = costAt;
  const span = costSpan(result);
  const annuity = uniformPresentValue(discountRate, years);
  const dots = cloud
    .filter(({ keepsLimits }) => keepsLimits)
    .map(({ capital, yearlyCost }: CloudPoint): At => ({ x: capital, y: yearlyCost }));
  const same = (x: number) => ((cheapest?.outcome.lifeCycleCost ?? 0) - x) / annuity;
  return draw(paper, label, {
    width,
    ...FRAME,
    x: { domain: span.x, axis: null },
    y: { domain: span.y, axis: null },
    marks: [
      ...axes(`${site.currency} at the start`, `${site.currency} a year after it`, width, span.x),
      cloudMark(dots, span),
      cheapest ? sameCostMarks(same, span, years, width) : null,
      frontierLine(frontier.map(at), span),
      frontierDots(costDots(result).map(at)),
      ownMarks(at(own), 'your choice', span),
      cheapest && cheapest.changes !== own.changes ? bestMarks(at(cheapest), 'cheapest', span) : null,
    ],
  });
}

function costAt({ outcome, yearlyCost }: Sized): At {
  return { x: outcome.capital, y: yearlyCost };
}

function costSpan({ own, cheapest, frontier }: SizeResult): Span {
  return spanOf(frontier.map(costAt), [own, ...(cheapest ? [cheapest] : [])].map(costAt));
}

/** Choices that have a dot of their own in the drawing of costs, in the order of the dots. */
export function costDots(result: SizeResult): Sized[] {
  const span = costSpan(result);
  return result.frontier.filter((one) => isWithin(costAt(one), span));
}

/** Dashes that tell budgets apart. */
const DASHES = ['', '7 3', '2 3'];

/** Energy that goes unserved against fuel, of all choices: the least fuel for each budget, and the own choice. */
export function fuelFrontierChart(
  result: SizeResult,
  width: number,
  label: string,
  paper: Document,
): SVGElement {
  const { fuelFrontiers, own, cloud } = result;
  const at = fuelAt;
  const lines = fuelFrontiers.map(({ sizes }) => sizes.map(at));
  const span = fuelSpan(lines, at(own), cloud);
  const dots = cloud.map(({ unservedKwh, fuelL }): At => ({ x: unservedKwh, y: fuelL }));
  return draw(paper, label, {
    width,
    ...FRAME,
    x: { domain: span.x, axis: null },
    y: { domain: span.y, axis: null },
    marks: [
      ...axes('kWh a year unserved', 'L of fuel a year', width, span.x),
      cloudMark(dots, span),
      ...lines.map((points, i) => frontierLine(points, span, DASHES[i])),
      frontierDots(fuelDots(result).map(at)),
      ...lines.map((points, i) => budgetLabel(points, budgetWords(result, i), span)),
      ownMarks(at(own), 'your choice', span),
    ],
  });
}

function fuelAt({ outcome }: Sized): At {
  return { x: outcome.unservedKwh, y: outcome.fuelL };
}

/** Choices that have a dot of their own in the drawing of fuel, in the order of the dots; each once. */
export function fuelDots({ fuelFrontiers, own, cloud }: SizeResult): Sized[] {
  const lines = fuelFrontiers.map(({ sizes }) => sizes.map(fuelAt));
  const span = fuelSpan(lines, fuelAt(own), cloud);
  const all = new Map(fuelFrontiers.flatMap(({ sizes }) => sizes).map((one) => [one.changes, one]));
  return [...all.values()].filter((one) => isWithin(fuelAt(one), span));
}

/** "for $92,000 at most"; "whatever it costs". */
function budgetWords({ fuelFrontiers, site }: SizeResult, i: number): string {
  const { mostCapital } = fuelFrontiers[i];
  return mostCapital === null ? 'whatever it costs' : `for ${site.currency}${digits(mostCapital)} at most`;
}

/** Room around the marked choices: as much of the frontier as is worth a look, not its far ends. */
function spanOf(frontier: readonly At[], marked: readonly At[]): Span {
  const most = 1.45 * Math.max(...marked.map(({ x }) => x));
  const shown = [...frontier.filter(({ x }) => x <= most), ...marked];
  const [x0, x1] = [Math.min(...shown.map(({ x }) => x)), Math.max(...shown.map(({ x }) => x))];
  const [y0, y1] = [Math.min(0, ...shown.map(({ y }) => y)), Math.max(...shown.map(({ y }) => y))];
  const room = (x1 - x0 || 1) * 0.06;
  return { x: [x0 - room, x1 + room], y: [y0, y1 + (y1 - y0 || 1) * 0.06] };
}

/** As far as the frontiers reach, and twice what is unserved today; half of what any choice leaves unserved, at least. */
function fuelSpan(lines: readonly (readonly At[])[], own: At, cloud: readonly CloudPoint[]): Span {
  const within = lines.slice(0, -1).flat();
  const unserved = cloud.map(({ unservedKwh }) => unservedKwh).filter((kwh) => kwh > 0);
  const middle = [...unserved].sort((a, b) => a - b)[Math.floor(unserved.length / 4)] ?? 1;
  const x1 = Math.max(
    2 * own.x,
    middle,
    ...within.map(({ x }) => x).filter((x) => x <= 4 * Math.max(own.x, middle)),
  );
  const y1 = 1.6 * Math.max(own.y, ...within.map(({ y }) => y));
  return { x: [-0.03 * x1, 1.05 * x1], y: [0, y1] };
}

function sameCostMarks(
  same: (x: number) => number,
  { x: [x0, x1], y: [y0, y1] }: Span,
  years: number,
  width: number,
) {
  // only the part within the drawing
  const ends = [x0, x1].map((x) => ({ x, y: same(x) }));
  const slope = (ends[1].y - ends[0].y) / (x1 - x0);
  const clipped = ends.map(({ x, y }) => {
    const to = Math.min(y1, Math.max(y0, y));
    return { x: slope === 0 ? x : x + (to - y) / slope, y: to };
  });
  const text = width < NARROW ? 'same cost' : `same cost over ${years} years`;
  return [
    Plot.line(clipped, { x: 'x', y: 'y', stroke: SOFT, strokeDasharray: '5 4' }),
    Plot.text([clipped[0]], {
      x: 'x',
      y: 'y',
      text: () => text,
      textAnchor: 'start',
      dy: -8,
      dx: 6,
      fill: SOFT,
      stroke: PAPER,
      strokeWidth: 3,
    }),
  ];
}

/** At a frontier's end with the most unserved that is still drawn. */
function budgetLabel(points: readonly At[], text: string, span: Span): Plot.Markish {
  const inside = points.filter(({ x, y }) => x <= span.x[1] && y <= span.y[1]);
  const end = inside[inside.length - 1];
  if (end === undefined) return null;
  const isRight = end.x > (span.x[0] + span.x[1]) / 2;
  return Plot.text([text], {
    x: end.x,
    y: end.y,
    text: (each) => each,
    dx: isRight ? -8 : 8,
    dy: 12,
    textAnchor: isRight ? 'end' : 'start',
    fill: INK,
    stroke: PAPER,
    strokeWidth: 4,
  });
}
