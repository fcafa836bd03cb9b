import * as Plot from '@observablehq/plot';
import type { AlternativeResult } from '../../scenarios/study.ts';
import type { ForesightWeek } from '../bound-words.ts';
import { alone, digits } from '../numbers.ts';
import type { StudyView } from '../view.ts';
import { DAYS_PX, dayMarks, words } from './dark-week-days.ts';
import { draw, FONT_PX, IN_PIXELS, pathMark } from './draw.ts';
import { BATTERY, GENERATOR, INK, SOFT, WARNED } from './palette.ts';
import { areaPath, linePath, perPixel } from './per-pixel.ts';

/** Room for a lane's words above it, and heights of lanes [px]. */
const HEADING_PX = 26;
const SOC_PX = 130;
const POWER_PX = 150;
const LEAST_LANE_PX = 12;

/** A week as the rules ran it and as foresight would have: state of charge, then the generator of both to one scale. */
export function foresightWeekChart(
  view: StudyView,
  result: AlternativeResult,
  week: ForesightWeek,
  width: number,
  label: string,
  paper: Document,
): SVGElement {
  const marks: Plot.Markish[] = [];
  let y = DAYS_PX;
  if (week.foresightSoc) {
    marks.push(...socMarks(week.ranSoc, week.foresightSoc, y + HEADING_PX, width));
    y += HEADING_PX + SOC_PX;
  }
  const lanes = [
    { name: 'Generator by the rules', kw: week.ranKw, fill: GENERATOR },
    { name: 'Generator with foresight', kw: week.foresightKw, fill: WARNED },
  ];
  const scale = POWER_PX / Math.max(1e-9, highest(week.ranKw) + highest(week.foresightKw));
  for (const { name, kw, fill } of lanes) {
    const up = Math.max(LEAST_LANE_PX, highest(kw) * scale);
    y += HEADING_PX + up;
    const base = Math.round(y * 10) / 10;
    const { mean } = perPixel(kw, 0, kw.length, width - 1);
    const kwh = (kw.reduce((sum, each) => sum + each, 0) * result.inputs.stepMin) / 60;
    marks.push(
      pathMark({ fill, stroke: 'none' }, () => areaPath(0, base, mean, (value) => base - value * scale)),
      Plot.ruleY([base], { x1: 0, x2: width, stroke: INK, strokeWidth: 0.8 }),
      words([0], [base - up - 10], [name], { textAnchor: 'start', fontWeight: 600 }),
      words([width], [base - up - 10], [`${alone('kwh', kwh)}, at most ${digits(highest(kw), 1)} kW`], {
        textAnchor: 'end',
        fill: SOFT,
      }),
    );
  }
  const height = Math.ceil(y) + 6;
  return draw(paper, label, {
    width,
    height,
    ...IN_PIXELS,
    marks: [...dayMarks(view, week.fromStep, week.toStep, width, height), ...marks],
  });
}

/** State of charge by the rules (filled, full line) and with foresight (dashed). */
function socMarks(ran: Float64Array, foresight: Float64Array, top: number, width: number): Plot.Markish[] {
  const yOf = (soc: number) => top + (1 - soc) * SOC_PX;
  const ranSoc = perPixel(ran, 0, ran.length, width - 1).last;
  const best = perPixel(foresight, 0, foresight.length, width - 1).last;
  const key =
    width > 500
      ? '0 to 100 %; by the rules: full line; with foresight: dashed'
      : 'rules full, foresight dashed';
  return [
    pathMark({ fill: BATTERY, 'fill-opacity': 0.28, stroke: 'none' }, () =>
      areaPath(0, top + SOC_PX, ranSoc, yOf),
    ),
    pathMark({ fill: 'none', stroke: INK, 'stroke-width': 1.2 }, () => linePath(0, ranSoc, yOf)),
    pathMark({ fill: 'none', stroke: GENERATOR, 'stroke-width': 2.2, 'stroke-dasharray': '7 3' }, () =>
      linePath(0, best, yOf),
    ),
    Plot.ruleY([yOf(0), yOf(1)], { x1: 0, x2: width, stroke: INK, strokeWidth: 0.8 }),
    words([0], [top - 10], ['State of charge'], { textAnchor: 'start', fontWeight: 600 }),
    words([width], [top - 10], [key], { textAnchor: 'end', fill: SOFT, fontSize: FONT_PX }),
  ];
}

function highest(values: Float64Array): number {
  return values.reduce((most, value) => Math.max(most, value), 0);
}
