import * as Plot from '@observablehq/plot';
import type { AlternativeResult } from '../../scenarios/study.ts';
import type { StudyView } from '../view.ts';
import { draw, HALF_WIDTH } from './draw.ts';
import { INK, LINE, SOFT } from './palette.ts';

/** The days that a year's drawing shows: one row a day, the hours of the day across. */
export interface YearSpan {
  fromStep: number;
  /** not included */
  toStep: number;
  firstDay: number;
  days: number;
  /** the run is longer than a year and only the one around the dark week is drawn */
  cut: boolean;
}

const MOST_DAYS = 366;
/** The year's height; a short run gets taller rows, up to the most [px]. */
const YEAR_PX = 732;
const MOST_ROW_PX = 14;

const LEFT = 34;
const RIGHT = 28;
const TOP = 24;
const BOTTOM = 8;
export const PLOT_WIDTH = HALF_WIDTH - LEFT - RIGHT;

/** All of the run, or the 365 days around the dark week of a longer one. */
export function yearSpan(view: StudyView, result: AlternativeResult): YearSpan {
  const { dayNumber } = view.calendar;
  const last = dayNumber.length - 1;
  const days = dayNumber[last] - dayNumber[0] + 1;
  if (days <= MOST_DAYS) return { fromStep: 0, toStep: last + 1, firstDay: dayNumber[0], days, cut: false };
  const middle = dayNumber[result.darkWeek?.fromStep ?? 0];
  const firstDay = Math.min(Math.max(dayNumber[0], middle - 182), dayNumber[last] - 364);
  const fromStep = dayNumber.indexOf(firstDay);
  const end = dayNumber.indexOf(firstDay + 365);
  return { fromStep, toStep: end < 0 ? last + 1 : end, firstDay, days: 365, cut: true };
}

function rowPx(span: YearSpan): number {
  return Math.max(2, Math.min(MOST_ROW_PX, Math.floor(YEAR_PX / span.days)));
}

/** A transform from (units of the day across, rows down) to the drawing's pixels. @param perDay units in a day */
export function cellTransform(span: YearSpan, perDay: number): string {
  return `translate(${LEFT} ${TOP + rowPx(span) / 2}) scale(${PLOT_WIDTH / perDay} ${rowPx(span)})`;
}

/**
 * Draws marks in the year's frame: months down the left, hours across the top, the dark week bracketed at the right.
 */
export function drawYear(
  view: StudyView,
  result: AlternativeResult,
  span: YearSpan,
  label: string,
  marks: Plot.Markish[],
  paper: Document,
): SVGElement {
  const height = TOP + span.days * rowPx(span) + BOTTOM;
  return draw(paper, label, {
    width: HALF_WIDTH,
    height,
    marginLeft: LEFT,
    marginRight: RIGHT,
    marginTop: TOP,
    marginBottom: BOTTOM,
    x: { domain: [0, 24], axis: null },
    y: { domain: [0, span.days], reverse: true, axis: null },
    marks: [
      ...marks,
      Plot.ruleX([6, 12, 18], { stroke: LINE, strokeOpacity: 0.7 }),
      Plot.axisX([0, 6, 12, 18, 24], {
        anchor: 'top',
        tickFormat: (hour: number) => String(hour).padStart(2, '0'),
        tickSize: 4,
        label: null,
        fontSize: 11,
      }),
      ...monthMarks(view, span),
      ...darkWeekMarks(view, result, span),
      Plot.frame({ stroke: SOFT, strokeWidth: 0.8 }),
    ],
  });
}

function monthMarks(view: StudyView, span: YearSpan): Plot.Markish[] {
  const inSpan = view.months.filter(
    ({ fromStep, toStep }) => toStep > span.fromStep && fromStep < span.toStep,
  );
  const rows = inSpan.map(({ fromStep, short }) => ({
    row: view.calendar.dayNumber[Math.max(fromStep, span.fromStep)] - span.firstDay,
    short: short.slice(0, 3),
  }));
  return [
    Plot.ruleY(rows.slice(1), { y: 'row', stroke: LINE, strokeOpacity: 0.7 }),
    Plot.text(rows, {
      x: 0,
      y: 'row',
      text: 'short',
      dx: -6,
      dy: 8,
      textAnchor: 'end',
      fontSize: 11,
      fill: INK,
    }),
  ];
}

function darkWeekMarks(view: StudyView, result: AlternativeResult, span: YearSpan): Plot.Markish[] {
  const { darkWeek } = result;
  if (darkWeek === null) return [];
  const from = view.calendar.dayNumber[darkWeek.fromStep] - span.firstDay;
  const to = view.calendar.dayNumber[darkWeek.toStep - 1] + 1 - span.firstDay;
  return [
    Plot.ruleY([from, to], { stroke: INK, strokeWidth: 0.8, strokeDasharray: '2 2' }),
    Plot.ruleX([24], { y1: from, y2: to, dx: 10, stroke: INK, strokeWidth: 3 }),
    Plot.text(['dark week'], {
      x: 24,
      y: (from + to) / 2,
      text: (each) => each,
      dx: 21,
      rotate: 90,
      fontSize: 11,
      fill: INK,
    }),
  ];
}
