import type { VisitGround } from '../ground.ts';
import { stepHours } from './log-days.ts';
import { jumpsOf } from './soc-jumps.ts';

/** Shown charge at which the battery counts as full, and at which the meter may rest at its end. */
const FULL = 0.985;
const EMPTY = 0.02;
/** A meter's error may have reached its bound after so long [days]. */
const MOST_DAYS = 8;
/** Stretches without a gap that are looked at: readings, an hour apart. */
const LEAST_READINGS = 24;

/** Shown charge, and what was counted since the log began. */
export interface CountedReading {
  step: number;
  soc: number;
  inKwh: number;
  outKwh: number;
  day: number;
  daysSinceFull: number;
  /** number of the stretch without a gap or a jump of the meter */
  stretch: number;
}

/** A reading an hour, away from full and empty and not long after the last full charge. */
export function countedReadings(ground: VisitGround): { readings: CountedReading[]; fulls: number } {
  const { axis, columns } = ground.record;
  const shown = columns.socFrac as Float64Array;
  const kw = columns.batteryKw as Float64Array;
  const hours = stepHours(ground);
  const perHour = Math.max(1, Math.round(1 / hours));
  const jumps = new Set(jumpsOf(ground).map(({ step }) => step));
  const readings: CountedReading[] = [];
  let [stretch, inKwh, outKwh, fulls] = [0, 0, 0, 0];
  let daysSinceFull = Number.POSITIVE_INFINITY;
  let wasFull = false;
  for (let i = 0; i < axis.count; i++) {
    const isKnown = !Number.isNaN(shown[i]) && !Number.isNaN(kw[i]);
    if (!isKnown || jumps.has(i)) {
      stretch++;
      daysSinceFull = Number.POSITIVE_INFINITY;
      wasFull = false;
    }
    if (!isKnown) continue;
    inKwh += Math.max(0, kw[i]) * hours;
    outKwh += Math.max(0, -kw[i]) * hours;
    const isFull = shown[i] >= FULL;
    daysSinceFull = isFull ? 0 : daysSinceFull + hours / 24;
    if (isFull && !wasFull) fulls++;
    wasFull = isFull;
    if (isFull || shown[i] <= EMPTY || daysSinceFull > MOST_DAYS || (i + 1) % perHour !== 0) continue;
    const day = (i * hours) / 24;
    readings.push({ step: i, soc: shown[i], inKwh, outKwh, day, daysSinceFull, stretch });
  }
  const counts = new Map<number, number>();
  for (const each of readings) counts.set(each.stretch, (counts.get(each.stretch) ?? 0) + 1);
  return { readings: readings.filter((each) => (counts.get(each.stretch) ?? 0) >= LEAST_READINGS), fulls };
}
