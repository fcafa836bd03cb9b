import * as Plot from '@observablehq/plot';
import type { TimeAxis } from '../../scenarios/series.ts';
import { draw, FULL_WIDTH } from '../charts/draw.ts';
import { INK, LOAD } from '../charts/palette.ts';

/** Stretches of time that a strip tells apart: about one a pixel. */
const MOST_BINS = 640;

/** Lowest, mean and highest value of a stretch of time; NaN where nothing is known. */
export interface StripBin {
  /** middle, as if local time were UTC */
  at: Date;
  low: number;
  mean: number;
  high: number;
}

/** A column over its whole time in as many stretches as can be seen. A stretch with nothing known stays empty. */
export function stripBins(values: Float64Array, axis: TimeAxis, factor: number, offsetS: number): StripBin[] {
  const per = Math.max(1, Math.ceil(values.length / MOST_BINS));
  const bins: StripBin[] = [];
  for (let from = 0; from < values.length; from += per) {
    const to = Math.min(values.length, from + per);
    let [sum, count, low, high] = [0, 0, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (let i = from; i < to; i++) {
      if (Number.isNaN(values[i])) continue;
      const value = values[i] * factor;
      sum += value;
      count++;
      low = Math.min(low, value);
      high = Math.max(high, value);
    }
    const at = new Date((axis.startS + offsetS + ((from + to) / 2) * axis.stepMin * 60) * 1000);
    const none = { low: Number.NaN, mean: Number.NaN, high: Number.NaN };
    bins.push({ at, ...(count > 0 ? { low, mean: sum / count, high } : none) });
  }
  return bins;
}

/** A column over its whole time: what it lay between, and its mean; gaps are gaps. */
export function stripChart(
  bins: readonly StripBin[],
  unit: string,
  label: string,
  paper: Document,
): SVGElement {
  return draw(paper, label, {
    width: FULL_WIDTH,
    height: 130,
    ...{ marginLeft: 48, marginRight: 14, marginTop: 22, marginBottom: 26 },
    x: { type: 'utc', label: null, tickSize: 3 },
    y: { label: unit, labelArrow: 'none', grid: true, ticks: 4, zero: unit === 'kW' },
    marks: [
      Plot.areaY(bins, { x: 'at', y1: 'low', y2: 'high', fill: LOAD, fillOpacity: 0.75 }),
      Plot.lineY(bins, { x: 'at', y: 'mean', stroke: INK, strokeWidth: 1.1 }),
      Plot.ruleY(unit === 'kW' ? [0] : [], { stroke: INK, strokeWidth: 0.6 }),
    ],
  });
}
