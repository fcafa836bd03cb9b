import * as Plot from '@observablehq/plot';
import { draw } from '../../charts/draw.ts';
import { GENERATOR, INK, LOAD } from '../../charts/palette.ts';

/** One bar, upright or lying. */
export interface Bar {
  name: string;
  value: number;
  /** written at its end; may be empty */
  text: string;
  marked: boolean;
}

/** Upright bars side by side: hours of the day, months. @param everyNth names written under the axis */
export function uprightBars(
  bars: readonly Bar[],
  axis: string,
  everyNth: number,
  width: number,
  height: number,
  label: string,
  paper: Document,
): SVGElement {
  const data = bars.map((bar, i) => ({ ...bar, i }));
  return draw(paper, label, {
    width,
    height,
    marginLeft: 44,
    marginBottom: 22,
    marginTop: 22,
    marginRight: 6,
    x: {
      type: 'band',
      domain: data.map(({ i }) => i),
      label: null,
      ticks: data.filter(({ i }) => i % everyNth === 0).map(({ i }) => i),
      tickFormat: (i: number) => bars[i].name,
      padding: 0.15,
    },
    y: { label: axis, labelArrow: false, ticks: 4, grid: true, nice: true },
    marks: [
      Plot.barY(data, {
        x: 'i',
        y: 'value',
        fill: (bar) => (bar.marked ? LOAD : GENERATOR),
        stroke: INK,
        strokeWidth: 0.5,
      }),
      Plot.ruleY([0], { stroke: INK }),
    ],
  });
}

const BAR_PX = 26;

/** Lying bars, one below the other, with what they amount to at their ends. */
export function lyingBars(bars: readonly Bar[], width: number, label: string, paper: Document): SVGElement {
  const marginLeft = Math.min(width * 0.42, 190);
  const most = Math.max(1e-9, ...bars.map(({ value }) => value));
  const least = Math.min(0, ...bars.map(({ value }) => value));
  const data = bars.map((bar, i) => ({ ...bar, i }));
  const room = Math.floor((marginLeft - 12) / 6.2);
  const cut = (name: string) => (name.length > room ? `${name.slice(0, room - 1)}…` : name);
  return draw(paper, label, {
    width,
    height: bars.length * BAR_PX + 10,
    marginLeft,
    marginRight: 92,
    marginTop: 4,
    marginBottom: 4,
    x: { domain: [least, most], axis: null },
    y: {
      type: 'band',
      domain: data.map(({ i }) => i),
      label: null,
      tickSize: 0,
      tickFormat: (i: number) => cut(bars[i].name),
      padding: 0.25,
    },
    marks: [
      Plot.barX(data, {
        y: 'i',
        x: 'value',
        fill: (bar) => (bar.marked ? GENERATOR : LOAD),
        stroke: INK,
        strokeWidth: 0.6,
      }),
      Plot.text(data, {
        y: 'i',
        x: (bar) => Math.max(0, bar.value),
        text: 'text',
        textAnchor: 'start',
        dx: 6,
        fill: INK,
      }),
      Plot.ruleX([0], { stroke: INK }),
    ],
  });
}
