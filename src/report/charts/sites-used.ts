import * as Plot from '@observablehq/plot';
import { draw, FULL_WIDTH } from './draw.ts';
import { INK, LINE, PAPER, SOFT } from './palette.ts';

/** A site as a dot. */
export interface SiteDot {
  name: string;
  /** litres a month */
  promised: number;
  used: number;
  asDesigned: boolean;
  /** its name is written beside it */
  named: boolean;
}

const SIDE_PX = 48;
const HEIGHT = 380;
/** Height of a name [px]. */
const LINE_PX = 14;
/** Room of a name beside its dot [px]. */
const NAME_PX = 190;

/**
 * Litres a month of every site: promised along, used upward; on the line they are the same. Full dots do not run as
 * designed, rings do.
 */
export function sitesUsedChart(dots: readonly SiteDot[], label: string, paper: Document): SVGElement {
  const most = Math.max(1, ...dots.flatMap(({ promised, used }) => [promised, used])) * 1.05;
  const isRight = ({ promised }: SiteDot) =>
    (promised / most) * (FULL_WIDTH - SIDE_PX) > FULL_WIDTH - NAME_PX - SIDE_PX;
  const named = apart(
    dots.filter((dot) => dot.named),
    most,
  );
  return draw(paper, label, {
    ...{
      width: FULL_WIDTH,
      height: HEIGHT,
      marginLeft: SIDE_PX,
      marginRight: 12,
      marginTop: 24,
      marginBottom: 40,
    },
    x: { axis: null, domain: [0, most] },
    y: { axis: null, domain: [0, most] },
    marks: [
      Plot.gridY({ stroke: LINE, strokeOpacity: 1, ticks: 5 }),
      Plot.axisY({ ticks: 5, tickSize: 0, label: null }),
      Plot.axisX({ ticks: 6, tickSize: 0, label: null }),
      Plot.line(
        [
          [0, 0],
          [most, most],
        ],
        { stroke: SOFT, strokeDasharray: '5 3' },
      ),
      Plot.dot(
        dots.filter(({ asDesigned }) => asDesigned),
        { x: 'promised', y: 'used', r: 3.6, fill: PAPER, stroke: INK, strokeWidth: 1.2 },
      ),
      Plot.dot(
        dots.filter(({ asDesigned }) => !asDesigned),
        { x: 'promised', y: 'used', r: 3.6, fill: INK, stroke: PAPER, strokeWidth: 0.8 },
      ),
      ...[false, true].map((right) =>
        Plot.text(
          named.filter((dot) => isRight(dot) === right),
          {
            x: 'promised',
            y: 'used',
            text: 'name',
            textAnchor: right ? 'end' : 'start',
            dx: right ? -8 : 8,
            fill: INK,
            stroke: PAPER,
            strokeWidth: 4,
          },
        ),
      ),
      Plot.text(['used, L a month'], {
        frameAnchor: 'top-left',
        ...{ dx: -SIDE_PX, dy: -20, textAnchor: 'start', fill: INK },
        text: (unit) => unit,
      }),
      Plot.text(['promised, L a month'], {
        frameAnchor: 'bottom-right',
        ...{ dy: 36, textAnchor: 'end', fill: INK },
        text: (unit) => unit,
      }),
      Plot.ruleY([0], { stroke: INK }),
    ],
  });
}

/** Names that do not run into one written before. */
function apart(dots: readonly SiteDot[], most: number): SiteDot[] {
  const perL = (px: number) => px / most;
  const chosen: SiteDot[] = [];
  for (const dot of dots) {
    const meets = (other: SiteDot) =>
      Math.abs(other.used - dot.used) * perL(HEIGHT - 64) < LINE_PX &&
      Math.abs(other.promised - dot.promised) * perL(FULL_WIDTH - SIDE_PX) < NAME_PX;
    if (!chosen.some(meets)) chosen.push(dot);
  }
  return chosen;
}
