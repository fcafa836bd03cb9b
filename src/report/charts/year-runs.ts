import type * as Plot from '@observablehq/plot';
import type { AlternativeResult } from '../../scenarios/study.ts';
import { START_CAUSES, type StartCause } from '../../sim/causes.ts';
import { type DaySpan, daySpans } from '../day-spans.ts';
import type { StudyView } from '../view.ts';
import { pathMark } from './draw.ts';
import { causeFill, DAYLIGHT, UNSERVED_LINE } from './palette.ts';
import { cellTransform, drawYear, PLOT_WIDTH, type YearSpan, yearSpan } from './year-frame.ts';

/** No run is drawn shorter than this, or a short start would vanish [h]. */
const LEAST_DRAWN_H = (1.4 * 24) / PLOT_WIDTH;
/** The array counts as lit above this share of its highest output. */
const LIT_SHARE = 0.02;

/** The year, a row a day: when the generator ran, by cause, and when load went unserved, over the hours with light. */
export function yearRunsChart(
  view: StudyView,
  result: AlternativeResult,
  label: string,
  paper: Document,
): SVGElement {
  const span = yearSpan(view, result);
  const strokes = (stroke: string, d: string, extra: Record<string, string | number> = {}): Plot.Markish =>
    pathMark(
      {
        transform: cellTransform(span, 24),
        stroke,
        'stroke-width': 1,
        fill: 'none',
        'shape-rendering': 'crispEdges',
        ...extra,
      },
      () => d,
    );
  const marks = [strokes(DAYLIGHT, litPath(view, result, span))];
  for (const [cause, d] of runPaths(view, result, span)) marks.push(strokes(causeFill(cause, false), d));
  marks.push(strokes(UNSERVED_LINE, outagePath(view, result, span)));
  return drawYear(view, result, span, label, marks, paper);
}

function runPaths(view: StudyView, result: AlternativeResult, span: YearSpan): [StartCause, string][] {
  return START_CAUSES.flatMap((cause): [StartCause, string][] => {
    const spans = result.ledger.runs
      .filter((run) => run.cause === cause)
      .flatMap((run) => daySpans(view, run.startH, run.endH));
    return spans.length > 0 ? [[cause, strokePath(spans, span)]] : [];
  });
}

function strokePath(spans: readonly DaySpan[], { firstDay, days }: YearSpan): string {
  return spans
    .filter(({ dayNumber }) => dayNumber >= firstDay && dayNumber < firstDay + days)
    .map(({ dayNumber, fromHour, toHour }) => {
      const length = Math.max(LEAST_DRAWN_H, toHour - fromHour);
      const from = Math.min(fromHour, 24 - length);
      return `M${short(from)} ${dayNumber - firstDay}h${short(length)}`;
    })
    .join('');
}

/** When load went unserved, and a mark in the right margin for every day with any. */
function outagePath(view: StudyView, result: AlternativeResult, span: YearSpan): string {
  const spans = result.ledger.outages.flatMap(({ startH, endH }) => daySpans(view, startH, endH));
  const rows = new Set(spans.map(({ dayNumber }) => dayNumber - span.firstDay));
  const px = 24 / PLOT_WIDTH;
  const edge = [...rows]
    .filter((row) => row >= 0 && row < span.days)
    .map((row) => `M${short(24 + 2 * px)} ${row}h${short(6 * px)}`);
  return strokePath(spans, span) + edge.join('');
}

/** From the first to the last lit step of each day. */
function litPath(view: StudyView, result: AlternativeResult, span: YearSpan): string {
  const { dcArrayKw, acArrayKw, stepMin } = result.inputs;
  const { dayNumber, minuteOfDay } = view.calendar;
  const level = LIT_SHARE * (highest(dcArrayKw) + highest(acArrayKw));
  if (level === 0) return '';
  const first = new Float64Array(span.days).fill(-1);
  const last = new Float64Array(span.days);
  for (let step = span.fromStep; step < span.toStep; step++) {
    if ((dcArrayKw?.[step] ?? 0) + (acArrayKw?.[step] ?? 0) <= level) continue;
    const row = dayNumber[step] - span.firstDay;
    if (first[row] < 0) first[row] = minuteOfDay[step];
    last[row] = minuteOfDay[step] + stepMin;
  }
  return Array.from(first, (from, row) =>
    from < 0 ? '' : `M${short(from / 60)} ${row}h${short((last[row] - from) / 60)}`,
  ).join('');
}

function highest(values: Float64Array | undefined): number {
  return values?.reduce((most, value) => Math.max(most, value), 0) ?? 0;
}

function short(hours: number): string {
  return String(Math.round(hours * 100) / 100);
}
