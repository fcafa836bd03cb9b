import * as Plot from '@observablehq/plot';
import type { ClimateDecision, ColdWeekRun } from '../../scenarios/climate-decision.ts';
import type { AlternativeResult } from '../../scenarios/study.ts';
import { withAndWithout } from '../cold-week-title.ts';
import { alone, asEntered, digits } from '../numbers.ts';
import type { StudyView } from '../view.ts';
import { DAYS_PX, dayMarks, words } from './dark-week-days.ts';
import { draw, FONT_PX, IN_PIXELS, pathMark } from './draw.ts';
import { BATTERY, GENERATOR, INK, SOFT } from './palette.ts';
import { areaPath, linePath, perPixel } from './per-pixel.ts';

/** Room for a lane's words above it, and heights of lanes [px]. */
const HEADING_PX = 26;
const TEMPERATURE_PX = 150;
const POWER_PX = 200;
const LEAST_LANE_PX = 12;

interface Lane {
  name: string;
  kw: Float64Array;
  fill: string;
  runH?: number;
}

/**
 * The coldest week with and without a heater: cells and outside air, then what the battery takes and what the
 * generator gives, each with and without, all powers to one scale.
 */
export function coldWeekChart(
  view: StudyView,
  result: AlternativeResult,
  week: NonNullable<ClimateDecision['coldWeek']>,
  width: number,
  label: string,
  paper: Document,
): SVGElement {
  const [warm, cold] = withAndWithout(week);
  const marks = temperatureMarks(result, week.airC, warm, cold, width);
  let y = DAYS_PX + HEADING_PX + TEMPERATURE_PX;
  const lanes = lanesOf(result, warm, cold);
  const scale = POWER_PX / Math.max(1e-9, sum(lanes.map(({ kw }) => highest(kw))));
  for (const lane of lanes) {
    y += HEADING_PX + Math.max(LEAST_LANE_PX, highest(lane.kw) * scale);
    marks.push(...powerMarks(lane, result.inputs.stepMin, y, scale, width));
  }
  const height = Math.ceil(y) + 6;
  return draw(paper, label, {
    width,
    height,
    ...IN_PIXELS,
    marks: [...dayMarks(view, week.fromStep, week.toStep, width, height), ...marks],
  });
}

function lanesOf({ plant }: AlternativeResult, warm: ColdWeekRun, cold: ColdWeekRun): Lane[] {
  const lanes: Lane[] = [
    { name: 'Charging with heater', kw: warm.chargeKw, fill: BATTERY },
    { name: 'Charging without', kw: cold.chargeKw, fill: BATTERY },
  ];
  if (plant.generator)
    lanes.push(
      { name: 'Generator with heater', kw: warm.generatorKw, fill: GENERATOR, runH: warm.runH },
      { name: 'Generator without', kw: cold.generatorKw, fill: GENERATOR, runH: cold.runH },
    );
  return lanes;
}

/** Cells with heater (full line) and without (dashed), outside air (thin), and where charging ends. */
function temperatureMarks(
  { plant }: AlternativeResult,
  airC: Float64Array,
  warm: ColdWeekRun,
  cold: ColdWeekRun,
  width: number,
): Plot.Markish[] {
  const series = [airC, warm.cellC, cold.cellC];
  const noneC = plant.battery?.chargeNoneC ?? 0;
  const low = Math.floor(
    Math.min(
      noneC,
      ...series.map(
        (values) =>
          -highest(
            values.map((c) => -c),
            -99,
          ),
      ),
    ) - 1,
  );
  const high = Math.ceil(Math.max(noneC, ...series.map((values) => highest(values, -99))) + 1);
  const top = DAYS_PX + HEADING_PX;
  const yOf = (celsius: number) => top + ((high - celsius) / (high - low)) * TEMPERATURE_PX;
  const line = (values: Float64Array, attributes: Record<string, string | number>) =>
    pathMark({ fill: 'none', ...attributes }, () =>
      linePath(0, perPixel(values, 0, values.length, width - 1).mean, yOf),
    );
  const wide = width > 500;
  const key = wide
    ? 'cells with heater: full line; without: dashed; outside air: thin'
    : 'cells with heater full, without dashed';
  return [
    Plot.ruleY([yOf(low), yOf(high)], { x1: 0, x2: width, stroke: INK, strokeWidth: 0.8 }),
    Plot.ruleY([yOf(noneC)], {
      x1: 0,
      x2: width,
      stroke: GENERATOR,
      strokeWidth: 1.1,
      strokeDasharray: '2 3',
    }),
    line(airC, { stroke: SOFT, 'stroke-width': 0.8 }),
    line(cold.cellC, { stroke: INK, 'stroke-width': 1.4, 'stroke-dasharray': '6 3' }),
    line(warm.cellC, { stroke: BATTERY, 'stroke-width': 2.4 }),
    words([0], [top - 10], [wide ? 'Temperature, °C' : '°C'], { textAnchor: 'start', fontWeight: 600 }),
    words([width], [top - 10], [key], { textAnchor: 'end', fill: SOFT }),
    words([4, 4], [yOf(high) + 8, yOf(low) - 8], [asEntered(high), asEntered(low)], {
      textAnchor: 'start',
      fontSize: FONT_PX - 1,
    }),
    words([width - 4], [yOf(noneC) - 7], [`no charging at or below ${asEntered(noneC)} °C`], {
      textAnchor: 'end',
      fontSize: FONT_PX - 1,
    }),
  ];
}

function powerMarks(
  { name, kw, fill, runH }: Lane,
  stepMin: number,
  baseY: number,
  scale: number,
  width: number,
): Plot.Markish[] {
  const top = baseY - Math.max(LEAST_LANE_PX, highest(kw) * scale);
  const { mean } = perPixel(kw, 0, kw.length, width - 1);
  const hours = runH === undefined ? '' : ` in ${alone('hours', runH)}`;
  const text = `${alone('kwh', (sum(kw) * stepMin) / 60)}${hours}, at most ${digits(highest(kw), 1)} kW`;
  return [
    pathMark({ fill, stroke: 'none' }, () =>
      areaPath(0, Math.round(baseY * 10) / 10, mean, (value) => baseY - value * scale),
    ),
    Plot.ruleY([baseY], { x1: 0, x2: width, stroke: INK, strokeWidth: 0.8 }),
    words([0], [top - 10], [name], { textAnchor: 'start', fontWeight: 600 }),
    words([width], [top - 10], [text], { textAnchor: 'end', fill: SOFT }),
  ];
}

function sum(values: ArrayLike<number>): number {
  let total = 0;
  for (let i = 0; i < values.length; i++) total += values[i];
  return total;
}

function highest(values: ArrayLike<number>, least = 0): number {
  let most = least;
  for (let i = 0; i < values.length; i++) most = Math.max(most, values[i]);
  return most;
}
