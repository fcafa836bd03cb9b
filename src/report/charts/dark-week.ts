import * as Plot from '@observablehq/plot';
import type { GeneratorRun } from '../../sim/ledger.ts';
import type { AxisView } from '../view.ts';
import { DAYS_PX, dayMarks, words } from './dark-week-days.ts';
import { type DrawnDays, type Lane, lanesOf, laneText } from './dark-week-lanes.ts';
import { draw, FONT_PX, IN_PIXELS, pathMark } from './draw.ts';
import { BATTERY, GENERATOR, INK, SOFT } from './palette.ts';
import { areaPath, linePath, perPixel } from './per-pixel.ts';

/** Room for a lane's words above it [px]. */
const HEADING_PX = 26;
/** All power lanes together; they share one scale, so that a kilowatt is as high everywhere. */
const POWER_PX = 300;
const LEAST_LANE_PX = 12;
/** Room for the causes under the generator's runs, and the width of a letter there [px]. */
const CAUSE_PX = 14;
const LETTER_PX = 5.9;
const SOC_PX = 84;

/** What is drawn, and the generator's runs over all of it. */
export interface DrawnRuns extends DrawnDays {
  ledger: { stepMin: number; runs: readonly Pick<GeneratorRun, 'startH' | 'endH' | 'cause'>[] };
}

/**
 * Load, array, battery, generator, unserved load and state of charge over a span of days, one lane each, all powers
 * to one scale.
 * @param fromStep @param toStep the span, end not included
 */
export function darkWeekChart(
  view: AxisView,
  result: DrawnRuns,
  fromStep: number,
  toStep: number,
  width: number,
  label: string,
  paper: Document,
): SVGElement {
  const columns = width - 1;
  const lanes = lanesOf(result, fromStep, toStep);
  const scale = POWER_PX / lanes.reduce((sum, lane) => sum + lane.highest - lane.lowest, 0);
  const marks: Plot.Markish[] = [];
  let y = DAYS_PX;
  for (const lane of lanes) {
    y += HEADING_PX;
    const up = Math.max(LEAST_LANE_PX, lane.highest * scale);
    marks.push(...powerMarks(lane, y + up, scale, columns, width));
    y += up - lane.lowest * scale;
    if (lane.name !== 'Generator') continue;
    marks.push(runMarks(result, fromStep, toStep, y, width));
    y += CAUSE_PX;
  }
  if (result.plant.battery) {
    y += HEADING_PX;
    marks.push(...socMarks(result, fromStep, toStep, y, columns, width));
    y += SOC_PX;
  }
  const height = Math.ceil(y) + 6;
  return draw(paper, label, {
    width,
    height,
    ...IN_PIXELS,
    marks: [...dayMarks(view, fromStep, toStep, width, height), ...marks],
  });
}

function powerMarks(
  lane: Lane,
  baseY: number,
  scale: number,
  columns: number,
  width: number,
): Plot.Markish[] {
  const yOf = (kw: number) => baseY - kw * scale;
  const reduced = perPixel(lane.kw, 0, lane.kw.length, columns);
  const top = baseY - Math.max(LEAST_LANE_PX, lane.highest * scale);
  const marks: Plot.Markish[] = [
    pathMark({ fill: lane.fill, stroke: 'none' }, () => areaPath(0, round(baseY), reduced.mean, yOf)),
  ];
  if (lane.outlineKw) {
    const outline = perPixel(lane.outlineKw, 0, lane.outlineKw.length, columns);
    marks.push(
      pathMark({ fill: 'none', stroke: lane.stroke, 'stroke-width': 0.8 }, () =>
        linePath(0, outline.highest, yOf),
      ),
    );
  }
  marks.push(
    Plot.ruleY([baseY], { x1: 0, x2: width, stroke: INK, strokeWidth: 0.8 }),
    words([0], [top - 10], [lane.name], { textAnchor: 'start', fontWeight: 600 }),
    words([width], [top - 10], [laneText(lane, width)], { textAnchor: 'end', fill: SOFT }),
  );
  return marks;
}

/** Under each run why it started, where there is room for the word. */
function runMarks(
  result: DrawnRuns,
  fromStep: number,
  toStep: number,
  baseY: number,
  width: number,
): Plot.Markish {
  const { runs, stepMin } = result.ledger;
  const xOf = (hours: number) => (((hours * 60) / stepMin - fromStep) / (toStep - fromStep)) * width;
  const labels: { x: number; cause: string }[] = [];
  let used = 0;
  for (const { startH, endH, cause } of runs) {
    const [from, to] = [Math.max(0, xOf(startH)), Math.min(width, xOf(endH))];
    if (to <= from) continue;
    const half = (cause.length * LETTER_PX) / 2;
    const x = Math.min(Math.max((from + to) / 2, half), width - half);
    if (x - half < used) continue;
    labels.push({ x, cause });
    used = x + half + LETTER_PX / 2;
  }
  return words(
    labels.map(({ x }) => x),
    labels.map(() => baseY + 9),
    labels.map(({ cause }) => cause),
    { fontSize: FONT_PX - 1, fill: SOFT, textAnchor: 'middle' },
  );
}

function socMarks(
  result: DrawnRuns,
  fromStep: number,
  toStep: number,
  top: number,
  columns: number,
  width: number,
): Plot.Markish[] {
  const yOf = (soc: number) => top + (1 - soc) * SOC_PX;
  const soc = perPixel(result.columns.socFrac, fromStep, toStep, columns);
  const levels = socLevels(result);
  return [
    pathMark({ fill: BATTERY, 'fill-opacity': 0.28, stroke: 'none' }, () =>
      areaPath(0, top + SOC_PX, soc.last, yOf),
    ),
    pathMark({ fill: 'none', stroke: INK, 'stroke-width': 1.2 }, () => linePath(0, soc.last, yOf)),
    Plot.ruleY([yOf(0), yOf(1)], { x1: 0, x2: width, stroke: INK, strokeWidth: 0.8 }),
    Plot.ruleY(
      levels.map(({ soc: level }) => yOf(level)),
      { x1: 0, x2: width, stroke: GENERATOR, strokeWidth: 1.1, strokeDasharray: '5 3' },
    ),
    words(
      levels.map(() => 4),
      levels.map(({ soc: level }) => yOf(level) - 7),
      levels.map(({ text }) => text),
      { textAnchor: 'start', fontSize: FONT_PX - 1 },
    ),
    words([0], [top - 10], ['State of charge'], { textAnchor: 'start', fontWeight: 600 }),
    words([width], [top - 10], [`0 to 100 %, lowest ${Math.round(Math.min(...soc.lowest) * 100)} %`], {
      textAnchor: 'end',
      fill: SOFT,
    }),
  ];
}

/** The states of charge at which the generator starts and stops, where it follows them. */
function socLevels({ controls, plant }: DrawnDays): { soc: number; text: string }[] {
  const { charge } = controls;
  if (charge === null || plant.generator === null) return [];
  return [
    { soc: charge.startSoc, text: `generator starts, ${Math.round(charge.startSoc * 100)} %` },
    { soc: charge.stopSoc, text: `stops, ${Math.round(charge.stopSoc * 100)} %` },
  ];
}

function round(y: number): number {
  return Math.round(y * 10) / 10;
}
