import * as Plot from '@observablehq/plot';
import { type AxisView, hoursOfStep, localMs, shortDay, weekday } from '../view.ts';
import { INK, LINE, PAPER, SOFT } from './palette.ts';

/** Room for the days' names above all lanes [px]. */
export const DAYS_PX = 24;

/** A line at every local midnight, and the day's name above the day. */
export function dayMarks(
  view: AxisView,
  fromStep: number,
  toStep: number,
  width: number,
  height: number,
): Plot.Markish[] {
  const { dayNumber } = view.calendar;
  const starts = [fromStep];
  for (let step = fromStep + 1; step < toStep; step++)
    if (dayNumber[step] !== dayNumber[step - 1]) starts.push(step);
  const xOf = (step: number) => ((step - fromStep) / (toStep - fromStep)) * width;
  const days = starts.map((step, i) => ({
    from: xOf(step),
    to: xOf(starts[i + 1] ?? toStep),
    ms: localMs(view, hoursOfStep(view, step)),
  }));
  const whole = days.filter(({ from, to }) => to - from > 30);
  return [
    Plot.ruleX(
      days.slice(1).map(({ from }) => from),
      { y1: DAYS_PX - 8, y2: height, stroke: LINE, strokeWidth: 1 },
    ),
    words(
      whole.map(({ from, to }) => (from + to) / 2),
      whole.map(() => DAYS_PX - 14),
      whole.map(({ from, to, ms }) =>
        to - from > 70 ? shortDay(ms) : `${weekday(ms)} ${new Date(ms).getUTCDate()}`,
      ),
      { textAnchor: 'middle', fill: SOFT },
    ),
  ];
}

/** Texts at places of the drawing, on a ground that keeps them readable over lines. */
export function words(x: number[], y: number[], text: string[], options: Plot.TextOptions): Plot.Markish {
  return Plot.text(text, {
    x,
    y,
    text: (each) => each,
    fill: INK,
    stroke: PAPER,
    strokeWidth: 4,
    ...options,
  });
}
