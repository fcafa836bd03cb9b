import * as Plot from '@observablehq/plot';
import { draw } from '../../charts/draw.ts';
import { ARRAY, BATTERY, GENERATOR, INK, LINE, SOFT, UNSERVED } from '../../charts/palette.ts';
import type { Supply } from '../spans.ts';

const POWER_PX = 120;
const SOC_PX = 36;
/** Points across a drawing: what is finer is averaged [number]. */
const MOST_POINTS = 240;

export interface SupplyWords {
  power: string;
  charge: string;
  /** what stands under the axis at hours from the start of the span */
  ticks: readonly { hour: number; text: string }[];
  label: string;
}

/** Who supplies what is used: areas on top of each other up to the line of use; below it the battery's charge. */
export function supplyCharts(
  supply: Supply,
  words: SupplyWords,
  width: number,
  hasBattery: boolean,
  paper: Document,
): SVGElement[] {
  const points = reduced(supply);
  const hours = supply.useKw.length * supply.stepH;
  const x = (withTicks: boolean): Plot.ScaleOptions => ({
    domain: [0, hours],
    label: null,
    ticks: words.ticks.map(({ hour }) => hour),
    tickFormat: (hour: number) =>
      withTicks ? (words.ticks.find((tick) => tick.hour === hour)?.text ?? '') : '',
  });
  const area = (y1: keyof Point, y2: keyof Point, fill: string) =>
    Plot.areaY(points, { x: 'hour', y1, y2, fill, curve: 'step' });
  const margins = { marginLeft: 44, marginRight: 18 };
  const top = draw(paper, words.label, {
    width,
    height: POWER_PX,
    ...margins,
    marginBottom: hasBattery ? 8 : 22,
    marginTop: 22,
    x: x(!hasBattery),
    y: { label: words.power, grid: false, ticks: 4, labelArrow: false, nice: true },
    marks: [
      Plot.ruleX(
        words.ticks.map(({ hour }) => hour),
        { stroke: LINE },
      ),
      area('zero', 'generator', GENERATOR),
      area('generator', 'sun', ARRAY),
      area('sun', 'battery', BATTERY),
      area('battery', 'use', UNSERVED),
      Plot.lineY(points, { x: 'hour', y: 'use', stroke: INK, strokeWidth: 1.2, curve: 'step' }),
      Plot.ruleY([0], { stroke: INK }),
    ],
  });
  if (!hasBattery) return [top];
  const soc = draw(paper, `${words.charge}: ${words.label}`, {
    width,
    height: SOC_PX + 40,
    ...margins,
    marginTop: 20,
    marginBottom: 22,
    x: x(true),
    y: { label: words.charge, domain: [0, 100], ticks: [0, 50, 100], labelArrow: false },
    marks: [
      Plot.ruleX(
        words.ticks.map(({ hour }) => hour),
        { stroke: LINE },
      ),
      Plot.areaY(points, { x: 'hour', y: 'soc', fill: BATTERY, fillOpacity: 0.35 }),
      Plot.lineY(points, { x: 'hour', y: 'soc', stroke: INK, strokeWidth: 1.2 }),
      Plot.ruleY([0, 100], { stroke: SOFT, strokeWidth: 0.6 }),
    ],
  });
  return [top, soc];
}

/** Powers stacked, at an hour from the start of the span; charge in percent. */
interface Point {
  hour: number;
  zero: number;
  generator: number;
  sun: number;
  battery: number;
  use: number;
  soc: number;
}

function reduced(supply: Supply): Point[] {
  const { useKw, sunKw, batteryKw, generatorKw, socFrac, stepH } = supply;
  const count = useKw.length;
  const each = Math.max(1, Math.ceil(count / MOST_POINTS));
  const points: Point[] = [];
  for (let from = 0; from < count; from += each) {
    const to = Math.min(count, from + each);
    const mean = (series: Float64Array) => {
      let sum = 0;
      for (let i = from; i < to; i++) sum += series[i];
      return sum / (to - from);
    };
    const generator = mean(generatorKw);
    const sun = generator + mean(sunKw);
    points.push({
      hour: from * stepH,
      zero: 0,
      generator,
      sun,
      battery: sun + mean(batteryKw),
      use: mean(useKw),
      soc: socFrac[to - 1] * 100,
    });
  }
  if (points.length > 0) points.push({ ...points[points.length - 1], hour: count * stepH });
  return points;
}
