import { medianOf } from '../../middle-values.ts';
import type { Fault } from '../visit.ts';
import { type Detector, fault, unmet } from './detector.ts';
import { FAULT_TERMS } from './fault-terms.ts';
import { findStep } from './find-step.ts';
import { daysOf, engineRan, stepHours, timeOf } from './log-days.ts';
import { notHeldBack } from './not-held-back.ts';

/** Output at which measured and expected are compared, as shares of the rating: neither rounding nor a clipped top. */
const BAND = { least: 0.1, most: 0.8 };
/** Of such output a day needs so much [h]. */
const LEAST_H = 1;
/** A loss below this part of one string is none. */
const PART_OF_STRING = 0.6;

/** An array that gives a fixed share less, of what the logged sun would give, from some day on. */
export const deadString: Detector = {
  kind: 'dead-string',
  lacks: ({ site, record }) =>
    unmet([
      [site.arrays.length > 0, 'part: arrays'],
      [record.columns.sunWPerM2, 'sunWPerM2'],
      [!site.battery || record.columns.socFrac, 'socFrac'],
      [!site.cabinet || record.columns.cellC, 'cellC'],
      [
        Object.keys(record.arraysKw).length > 0 || (record.columns.arrayKw && site.arrays.length === 1),
        'each array by itself',
      ],
    ]),
  find(ground) {
    const { site, record, sunArraysKw } = ground;
    const { leastSize, duration } = FAULT_TERMS['dead-string'];
    const free = notHeldBack(ground);
    let looked = false;
    const faults: Fault[] = [];
    for (const array of site.arrays) {
      const kw =
        record.arraysKw[array.name] ?? (site.arrays.length === 1 ? record.columns.arrayKw : undefined);
      const sunKw = sunArraysKw?.[array.name];
      if (!kw || !sunKw) continue;
      const ran = array.coupling === 'ac' ? engineRan(ground) : null;
      const isUsed = (i: number) =>
        free[i] === 1 &&
        sunKw[i] > BAND.least * array.kWp &&
        sunKw[i] < BAND.most * array.kWp &&
        !Number.isNaN(kw[i]) &&
        (ran === null || (ran[i] === 0 && ran[i - 1] === 0 && ran[i + 1] === 0));
      const days = daysOf(ground).map(({ from, to }) =>
        ratioOf(kw, sunKw, from, to, isUsed, stepHours(ground)),
      );
      const known = days.filter((ratio) => !Number.isNaN(ratio)).length;
      if (known < 2 * duration) continue;
      looked = true;
      const step = findStep(days, duration);
      const size = step ? 1 - step.after / step.before : 0;
      const least = Math.max(
        leastSize,
        PART_OF_STRING / (array.strings?.strings ?? Number.POSITIVE_INFINITY),
      );
      if (step === null || size < least) continue;
      const { from } = daysOf(ground)[step.at];
      faults.push(
        fault({
          ...{ kind: 'dead-string', part: array.name, size },
          ...{ fromS: timeOf(ground, from), toS: timeOf(ground, kw.length) },
          evidence: {
            shareBefore: step.before,
            shareAfter: step.after,
            ...(array.strings && {
              stringsLost: size * array.strings.strings,
              strings: array.strings.strings,
            }),
            days: known,
          },
        }),
      );
    }
    return looked ? faults : 'enough days';
  },
};

/** Median share of the expected output that a day gave; NaN with too little to compare. */
function ratioOf(
  kw: Float64Array,
  sunKw: Float64Array,
  from: number,
  to: number,
  isUsed: (step: number) => boolean,
  hours: number,
): number {
  const ratios: number[] = [];
  for (let i = from; i < to; i++) if (isUsed(i)) ratios.push(kw[i] / sunKw[i]);
  return ratios.length * hours >= LEAST_H ? medianOf(ratios) : Number.NaN;
}
