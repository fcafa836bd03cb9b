import * as Plot from '@observablehq/plot';
import type { Visit } from '../../scenarios/visit/visit.ts';
import { MONTH_NAMES } from '../view.ts';
import { localMsOf } from '../visit/span.ts';
import { draw, IN_PIXELS, pathMark } from './draw.ts';
import { GENERATOR, INK, LINE, LOAD, SAVED, SOFT } from './palette.ts';

const LANE_PX = 36;
const GAP_PX = 16;
const SIDE_PX = 34;
const LETTER_PX = 34;

/** Days of one lane, from top to bottom. */
const LANES = [
  { key: 'designedKwh', name: 'designed', fill: LOAD },
  { key: 'ranKwh', name: 'logged', fill: GENERATOR },
  { key: 'calibratedKwh', name: 'reckoned with what was estimated', fill: LOAD },
] as const;

/**
 * What the generator gave each day: as designed, by the log, and by the simulation with what was estimated, under each
 * other on one scale. Days without a value are hatched.
 */
export function loggedDaysChart(visit: Visit, width: number, label: string, paper: Document): SVGElement {
  const { days } = visit.comparison;
  const count = days.startS.length;
  const values = LANES.flatMap(({ key }) => days[key]).filter((kwh) => kwh !== null);
  const most = Math.max(1e-9, ...values);
  const height = LANES.length * (LANE_PX + GAP_PX) + 18;
  const dayPx = (width - SIDE_PX) / Math.max(1, count);
  const baseOf = (lane: number) => (lane + 1) * (LANE_PX + GAP_PX);
  const xOf = (day: number) => SIDE_PX + day * dayPx;
  const bottom = baseOf(LANES.length - 1);
  const months = monthStarts(visit);
  const every = Math.max(1, Math.ceil((LETTER_PX * months.length) / (width - SIDE_PX)));
  return draw(paper, label, {
    width,
    height,
    ...IN_PIXELS,
    marks: [
      Plot.ruleX(months, { x: ({ day }) => xOf(day), y1: GAP_PX, y2: bottom, stroke: LINE }),
      ...LANES.map(({ key, fill }, lane) => pathOf(fill, barsPath(days[key], baseOf(lane), most, xOf))),
      ...LANES.map(({ key }, lane) => pathOf(SAVED, holesPath(days[key], baseOf(lane), xOf))),
      Plot.ruleY(LANES, { x1: SIDE_PX, x2: width, y: (_, lane) => baseOf(lane), stroke: INK }),
      Plot.text(LANES, {
        x: SIDE_PX,
        y: (_, lane) => baseOf(lane) - LANE_PX - 7,
        text: 'name',
        textAnchor: 'start',
        fill: INK,
      }),
      Plot.text(LANES, {
        x: SIDE_PX - 4,
        y: (_, lane) => baseOf(lane) - LANE_PX + 5,
        text: () => String(Number(most.toPrecision(2))),
        textAnchor: 'end',
        fill: SOFT,
      }),
      Plot.text(['kWh'], { x: 0, y: 8, text: (unit) => unit, textAnchor: 'start', fill: INK }),
      Plot.text(
        months.filter((_, i) => i % every === 0),
        { x: ({ day }) => xOf(day) + 2, y: bottom + 11, text: 'name', textAnchor: 'start', fill: INK },
      ),
    ],
  });
}

function pathOf(fill: string, d: string): Plot.Markish {
  return d === '' ? null : pathMark({ fill }, () => d);
}

/** Days as one stepped outline on its base; nothing where there is no value. */
function barsPath(
  values: readonly (number | null)[],
  baseY: number,
  most: number,
  xOf: (day: number) => number,
): string {
  return values
    .map((value, day) => {
      if (value === null || !(value > 0)) return '';
      const top = tenth(baseY - (value / most) * LANE_PX);
      return `M${tenth(xOf(day))} ${tenth(baseY)}V${top}H${tenth(xOf(day + 1))}V${tenth(baseY)}z`;
    })
    .join('');
}

/** Stretches of days without a value, as high as the lane. */
function holesPath(values: readonly (number | null)[], baseY: number, xOf: (day: number) => number): string {
  let path = '';
  for (let day = 0; day < values.length; day++) {
    if (Number.isFinite(values[day])) continue;
    const first = day;
    while (day + 1 < values.length && !Number.isFinite(values[day + 1])) day++;
    path += `M${tenth(xOf(first))} ${tenth(baseY)}v${-LANE_PX}H${tenth(xOf(day + 1))}v${LANE_PX}z`;
  }
  return path;
}

function tenth(px: number): number {
  return Math.round(px * 10) / 10;
}

/** Days on which a month begins, and the first day of the log. */
function monthStarts(visit: Visit): { day: number; name: string }[] {
  let before = -1;
  return visit.comparison.days.startS.flatMap((startS, day) => {
    const month = new Date(localMsOf(visit, startS + 3600)).getUTCMonth();
    if (month === before) return [];
    before = month;
    return [{ day, name: MONTH_NAMES[month].slice(0, 3) }];
  });
}
