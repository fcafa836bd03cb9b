import type { VisitGround } from '../ground.ts';
import { type Detector, fault, unmet } from './detector.ts';
import { FAULT_TERMS } from './fault-terms.ts';
import { leastSquares, withoutMeans } from './least-squares.ts';
import { stepHours, timeOf } from './log-days.ts';

/** Shown charge at which the battery counts as full, and below which the meter may rest at its end. */
const FULL = 0.985;
const EMPTY = 0.02;
/** A meter's error may have reached its bound after so long [days]. */
const MOST_DAYS = 8;
/** Stretches without a gap that are looked at [h]. */
const LEAST_H = 24;
/** Part of what energy counting leaves that the time since full explains: a saw, not a bad fit. */
const LEAST_EXPLAINED = 0.15;

/** The shown charge departs from counted energy with the time since the battery was full, and is right again when full. */
export const socDrift: Detector = {
  kind: 'soc-drift',
  lacks: ({ site, record }) =>
    unmet([
      [site.battery, 'part-battery'],
      [!site.battery?.leadAcid, 'lithium'],
      [record.columns.socFrac, 'socFrac'],
      [record.columns.batteryKw, 'batteryKw'],
    ]),
  find(ground) {
    const { leastSize, duration } = FAULT_TERMS['soc-drift'];
    const sample = samplesOf(ground);
    const level = (values: readonly number[]) => withoutMeans(values, sample.stretch);
    const soc = level(sample.soc);
    // a steady draw that the power column does not see falls with time, but does not end when full
    const others = [level(sample.inKwh), level(sample.outKwh), level(sample.day)];
    const saw = leastSquares([...others, level(sample.sinceFull)], soc);
    const none = leastSquares(others, soc);
    if (sample.fulls < duration || soc.length < 100 || saw === null || none === null)
      return 'enough-full-charges';
    const perDay = saw.coefficients[3];
    const explained = 1 - saw.leftSquares / none.leftSquares;
    const declared = Math.abs(ground.site.battery?.display?.driftPerDay ?? 0);
    if (Math.abs(perDay) < declared + leastSize || explained < LEAST_EXPLAINED) return [];
    return [
      fault({
        ...{ kind: 'soc-drift', part: null, size: perDay, fromS: timeOf(ground, sample.from) },
        toS: timeOf(ground, sample.to),
        evidence: { perDay, fullCharges: sample.fulls, explained, hours: soc.length },
      }),
    ];
  },
};

/** Shown charge by the hour, with what was counted since the start of a stretch without gaps. */
function samplesOf(ground: VisitGround) {
  const { axis, columns } = ground.record;
  const shown = columns.socFrac as Float64Array;
  const kw = columns.batteryKw as Float64Array;
  const hours = stepHours(ground);
  const perHour = Math.max(1, Math.round(1 / hours));
  const all = {
    soc: [] as number[],
    inKwh: [] as number[],
    outKwh: [] as number[],
    day: [] as number[],
    sinceFull: [] as number[],
    stretch: [] as number[],
    fulls: 0,
    from: 0,
    to: axis.count,
  };
  let stretch = 0;
  let inKwh = 0;
  let outKwh = 0;
  let since = Number.POSITIVE_INFINITY;
  let wasFull = false;
  for (let i = 0; i < axis.count; i++) {
    if (Number.isNaN(shown[i]) || Number.isNaN(kw[i])) {
      stretch++;
      since = Number.POSITIVE_INFINITY;
      wasFull = false;
      continue;
    }
    inKwh += Math.max(0, kw[i]) * hours;
    outKwh += Math.max(0, -kw[i]) * hours;
    const isFull = shown[i] >= FULL;
    since = isFull ? 0 : since + hours / 24;
    if (isFull && !wasFull) all.fulls++;
    wasFull = isFull;
    if (isFull || shown[i] <= EMPTY || since > MOST_DAYS || (i + 1) % perHour !== 0) continue;
    all.soc.push(shown[i]);
    all.inKwh.push(inKwh);
    all.outKwh.push(outKwh);
    all.day.push((i * hours) / 24);
    all.sinceFull.push(since);
    all.stretch.push(stretch);
  }
  return keepLong(all);
}

function keepLong<
  T extends { stretch: number[] } & Record<'soc' | 'inKwh' | 'outKwh' | 'day' | 'sinceFull', number[]>,
>(all: T): T {
  const counts = new Map<number, number>();
  for (const stretch of all.stretch) counts.set(stretch, (counts.get(stretch) ?? 0) + 1);
  const isLong = all.stretch.map((stretch) => (counts.get(stretch) ?? 0) >= LEAST_H);
  const kept = (values: number[]) => values.filter((_, i) => isLong[i]);
  const { soc, inKwh, outKwh, day, sinceFull, stretch } = all;
  return {
    ...all,
    ...{ soc: kept(soc), inKwh: kept(inKwh), outKwh: kept(outKwh) },
    ...{ day: kept(day), sinceFull: kept(sinceFull), stretch: kept(stretch) },
  };
}
