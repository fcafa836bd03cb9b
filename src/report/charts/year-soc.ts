import type { AlternativeResult } from '../../scenarios/study.ts';
import type { StudyView } from '../view.ts';
import { pathMark } from './draw.ts';
import { SOC_STEPS } from './palette.ts';
import { cellTransform, drawYear, type YearSpan, yearSpan } from './year-frame.ts';

const CELL_MIN = 15;

/** The year, a row a day: the lowest state of charge of every quarter of an hour, darkest where emptiest. */
export function yearSocChart(
  view: StudyView,
  result: AlternativeResult,
  label: string,
  paper: Document,
): SVGElement {
  const span = yearSpan(view, result);
  const cellMin = Math.max(CELL_MIN, view.study.axis.stepMin);
  const perDay = 1440 / cellMin;
  const marks = socPaths(socCells(view, result, span, cellMin), perDay).map((d, i) =>
    pathMark(
      {
        transform: cellTransform(span, perDay),
        stroke: SOC_STEPS[i],
        'stroke-width': 1,
        fill: 'none',
        'shape-rendering': 'crispEdges',
      },
      () => d,
    ),
  );
  return drawYear(view, result, span, label, marks, paper);
}

/** Lowest state of charge of each cell, row after row; above 1 where no step falls (an hour left out by the clock). */
function socCells(view: StudyView, result: AlternativeResult, span: YearSpan, cellMin: number): Float32Array {
  const perDay = 1440 / cellMin;
  const cells = new Float32Array(span.days * perDay).fill(2);
  const { dayNumber, minuteOfDay } = view.calendar;
  const { socFrac } = result.columns;
  for (let step = span.fromStep; step < span.toStep; step++) {
    const cell = (dayNumber[step] - span.firstDay) * perDay + Math.floor(minuteOfDay[step] / cellMin);
    if (socFrac[step] < cells[cell]) cells[cell] = socFrac[step];
  }
  return cells;
}

/** Strokes of equal step of charge, joined along the day. */
function socPaths(cells: Float32Array, perDay: number): string[] {
  const paths = SOC_STEPS.map(() => '');
  for (let row = 0; row * perDay < cells.length; row++) {
    for (let from = 0; from < perDay; ) {
      const step = socStep(cells[row * perDay + from]);
      let to = from + 1;
      while (to < perDay && socStep(cells[row * perDay + to]) === step) to++;
      if (step >= 0) paths[step] += `M${from} ${row}h${to - from}`;
      from = to;
    }
  }
  return paths;
}

function socStep(soc: number): number {
  return soc > 1.5 ? -1 : Math.min(SOC_STEPS.length - 1, Math.floor(soc * SOC_STEPS.length));
}
