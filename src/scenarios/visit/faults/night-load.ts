import { medianOf, percentileOf } from '../../middle-values.ts';
import { sumOfColumns } from '../../sum-columns.ts';
import type { VisitGround } from '../ground.ts';
import { type Detector, fault, unmet } from './detector.ts';
import { FAULT_TERMS, NIGHT_SHARE } from './fault-terms.ts';
import { findStep } from './find-step.ts';
import { daysOf, stepHours, timeOf, wholeLoad } from './log-days.ts';

/** Local hours in which the least load is looked for, and how much of them must be known [h]. */
const NIGHT = { fromMin: 0, toMin: 300, leastH: 3 };
/** The least load of a night: this percentile of its steps, so that one low reading is none [%]. */
const LEAST = 10;
/** A night load that was there from the first night on must exceed the designed one by so much more. */
const FROM_START = { kw: 0.15, share: 0.35 };

/** A load that does not switch off at night: the least load of nights has risen by a step, or was never as designed. */
export const nightLoad: Detector = {
  kind: 'night-load',
  lacks: (ground) => unmet([[wholeLoad(ground), 'loadKw']]),
  find(ground) {
    const loadKw = wholeLoad(ground) as Float64Array;
    const { leastSize, duration } = FAULT_TERMS['night-load'];
    const nights = leastOfNights(ground, loadKw);
    const designedKw = sumOfColumns(ground.designed.loadKw);
    const designed = leastOfNights(ground, designedKw);
    const count = nights.filter((kw) => !Number.isNaN(kw)).length;
    if (count < 2 * duration) return 'enough nights';
    const toS = timeOf(ground, loadKw.length);
    const step = findStep(nights, duration);
    if (step !== null) {
      // what the design foresees for these nights is none
      const foreseen = medianOf(designed.slice(step.at)) - medianOf(designed.slice(0, step.at));
      const size = Math.min(
        step.after - step.before - Math.max(0, foreseen),
        notGrown(step, dayMeans(ground, loadKw), dayMeans(ground, designedKw)),
      );
      if (size >= Math.max(leastSize, NIGHT_SHARE * step.before)) {
        const fromS = timeOf(ground, daysOf(ground)[step.at].from);
        const nightsAfter = nights.slice(step.at).filter((kw) => !Number.isNaN(kw)).length;
        const evidence = {
          beforeKw: step.before,
          afterKw: step.after,
          nights: nightsAfter,
          kwhADay: 24 * size,
        };
        return [fault({ kind: 'night-load', part: null, fromS, toS, size, evidence })];
      }
    }
    const seenKw = medianOf(nights);
    const size = alwaysOn(
      { night: seenKw, day: medianOf(dayMeans(ground, loadKw)) },
      { night: medianOf(designed), day: medianOf(dayMeans(ground, designedKw)) },
    );
    const expectedKw = seenKw - size;
    if (!(size >= Math.max(FROM_START.kw, FROM_START.share * expectedKw))) return [];
    const fromS = timeOf(ground, 0);
    const evidence = { designedKw: expectedKw, afterKw: seenKw, nights: count, kwhADay: 24 * size };
    return [fault({ kind: 'night-load', part: null, fromS, toS, size, evidence })];
  },
};

/** Least load of each night by the day that it belongs to; NaN with too little known. */
function leastOfNights(ground: VisitGround, loadKw: Float64Array): number[] {
  const { minuteOfDay } = ground.calendar;
  return daysOf(ground).map(({ from, to }) => {
    const night: number[] = [];
    for (let i = from; i < to; i++) {
      const isNight = minuteOfDay[i] >= NIGHT.fromMin && minuteOfDay[i] < NIGHT.toMin;
      // a site without power has no least load
      if (isNight && loadKw[i] > 0) night.push(loadKw[i]);
    }
    return night.length * stepHours(ground) >= NIGHT.leastH ? percentileOf(night, LEAST) : Number.NaN;
  });
}

/**
 * A load that is always on beside one that has grown in proportion: what solves both the nights and the days [kW];
 * NaN where the design's days are much like its nights.
 */
function alwaysOn(seen: { night: number; day: number }, designed: { night: number; day: number }): number {
  const contrast = designed.day - designed.night;
  if (!(contrast > designed.night / 2)) return Number.NaN;
  return (seen.night * designed.day - seen.day * designed.night) / contrast;
}

/**
 * What of a step of the nights is no growth of the whole load, by what the days did meanwhile beyond what the design
 * foresees for them [kW]; without bound where that cannot be told.
 */
function notGrown(
  { at, before, after }: { at: number; before: number; after: number },
  days: readonly number[],
  designed: readonly number[],
): number {
  const foreseen = medianOf(designed.slice(at)) / medianOf(designed.slice(0, at));
  const dayBefore = medianOf(days.slice(0, at)) * foreseen;
  const own = alwaysOn({ night: after, day: medianOf(days.slice(at)) }, { night: before, day: dayBefore });
  return Number.isNaN(own) ? Number.POSITIVE_INFINITY : own;
}

/** Mean load of each day outside the night; NaN with less than half of it known. */
function dayMeans(ground: VisitGround, loadKw: Float64Array): number[] {
  const { minuteOfDay } = ground.calendar;
  return daysOf(ground).map(({ from, to }) => {
    let sum = 0;
    let count = 0;
    for (let i = from; i < to; i++) {
      if (Number.isNaN(loadKw[i]) || minuteOfDay[i] < NIGHT.toMin) continue;
      sum += loadKw[i];
      count++;
    }
    return count > (to - from) / 2 ? sum / count : Number.NaN;
  });
}
