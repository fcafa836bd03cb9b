import fc from 'fast-check';
import type { Inputs } from '../../src/sim/inputs.ts';
import { between, sometimes } from './random-draws.ts';
import { evenNumbers } from './random-inputs.ts';

/** A few numbers from which flags over the run are made. */
export interface Spans {
  seed: number;
  /** hours of the day in which somebody is there; 24: always */
  attendedFromH: number;
  attendedH: number;
  awayDays: number;
  /** share of the days touched by each */
  outOfOrder: number;
  bypass: number;
  unitsOut: number;
  sheddableShare: number;
  /** hours of a fixed daily run window; 24: no window */
  windowH: number;
  exerciseEveryDays: number;
  setByHour: boolean;
  deadlineHour: number;
  failShare: number;
}

export const randomSpans: fc.Arbitrary<Spans> = fc.record(
  {
    seed: fc.integer({ min: 1, max: 0x7fff_ffff }),
    attendedFromH: fc.integer({ min: 0, max: 23 }),
    attendedH: sometimes(0.5, fc.integer({ min: 3, max: 20 }), 24),
    awayDays: sometimes(0.3, fc.integer({ min: 1, max: 4 }), 0),
    outOfOrder: sometimes(0.25, between(0.1, 0.4), 0),
    bypass: sometimes(0.2, between(0.1, 0.4), 0),
    unitsOut: sometimes(0.2, between(0.1, 0.5), 0),
    sheddableShare: sometimes(0.7, between(0.1, 0.9), 0),
    windowH: sometimes(0.3, fc.integer({ min: 1, max: 8 }), 24),
    exerciseEveryDays: fc.integer({ min: 1, max: 5 }),
    setByHour: fc.boolean(),
    deadlineHour: fc.integer({ min: 0, max: 23 }),
    failShare: sometimes(0.4, between(0.05, 0.7), 0),
  },
  { noNullPrototype: true },
);

/** The further series of a run; the same draw always gives the same ones. */
export function featureSeries(
  draw: Spans,
  inputs: Inputs,
  of: { units: number; sets: number; shiftable: number },
): Partial<Inputs> {
  const { count, stepMin, loadKw } = inputs;
  const even = evenNumbers(draw.seed);
  const hourOf = (step: number) => Math.floor((step * stepMin) / 60) % 24;
  const dayOf = (step: number) => Math.floor((step * stepMin) / 1440);
  const flags = (value: (step: number) => boolean) =>
    Uint8Array.from({ length: count }, (_, step) => Number(value(step)));
  const starts = (hour: number, every: number) => (step: number) =>
    (step * stepMin) % 1440 === hour * 60 && dayOf(step) % every === 0;
  /** stretches of some hours, on a share of the days */
  const stretches = (share: number): Uint8Array => {
    const series = new Uint8Array(count);
    for (let day = 0; day <= dayOf(count - 1); day++) {
      if (even() >= share) continue;
      const from = Math.floor(((day + even()) * 1440) / stepMin);
      series.fill(1, from, from + Math.ceil((even() * 1200) / stepMin));
    }
    return series;
  };
  const awayFrom = even() * 5;
  const series: Partial<Inputs> = {
    attended: flags((step) => {
      const away = dayOf(step) >= awayFrom && dayOf(step) < awayFrom + draw.awayDays;
      return !away && (hourOf(step) - draw.attendedFromH + 24) % 24 < draw.attendedH;
    }),
    sheddableKw: loadKw.map((kw) => kw.map((value) => value * draw.sheddableShare)),
    exerciseDue: flags(starts(10, draw.exerciseEveryDays)),
    shiftDeadline: Array.from({ length: of.shiftable }, (_, j) =>
      flags(starts((draw.deadlineHour + 5 * j) % 24, 1)),
    ),
  };
  if (draw.outOfOrder > 0) series.outOfOrder = stretches(draw.outOfOrder);
  if (draw.bypass > 0) series.bypass = stretches(draw.bypass);
  if (draw.unitsOut > 0)
    series.unitsOut = loadKw.map(() => {
      const number = 1 + Math.floor(even() * of.units);
      return stretches(draw.unitsOut).map((flag) => flag * number);
    });
  if (draw.windowH < 24) series.runWindow = flags((step) => (hourOf(step) + 7) % 24 < draw.windowH);
  if (of.sets > 0)
    series.thresholdSet = Uint8Array.from({ length: count }, (_, step) =>
      draw.setByHour ? hourOf(step) % (of.sets + 1) : dayOf(step) % (of.sets + 1),
    );
  if (draw.failShare > 0)
    series.startFails = Uint8Array.from({ length: 64 }, () => Number(even() < draw.failShare));
  return series;
}
