import { type CountedReading, countedReadings } from './counted-charge.ts';
import { type Detector, fault, unmet } from './detector.ts';
import { FAULT_TERMS } from './fault-terms.ts';
import { leastSquares, withoutMeans } from './least-squares.ts';
import { timeOf } from './log-days.ts';

/** Hourly readings that a fit needs. */
const LEAST_READINGS = 100;
/** Part of what energy counting leaves that the time since full explains: a saw, not a bad fit. */
const LEAST_EXPLAINED = 0.15;
/** The log is looked at in so many parts, and so many must show it: one odd week is no drift. */
const PARTS = { all: 3, least: 2 };

/** The shown charge departs from counted energy with the time since the battery was full, and is right again when full. */
export const socDrift: Detector = {
  kind: 'soc-drift',
  lacks: ({ site, record }) =>
    unmet([
      [site.battery, 'part: battery'],
      [!site.battery?.leadAcid, 'a lithium battery'],
      [record.columns.socFrac, 'socFrac'],
      [record.columns.batteryKw, 'batteryKw'],
    ]),
  find(ground) {
    const { leastSize, duration } = FAULT_TERMS['soc-drift'];
    const { readings, fulls } = countedReadings(ground);
    const whole = driftOf(readings);
    if (fulls < duration || whole === null) return 'enough full charges';
    const declared = Math.abs(ground.site.battery?.display?.driftPerDay ?? 0);
    const { perDay, explained } = whole;
    if (Math.abs(perDay) < declared + leastSize || explained < LEAST_EXPLAINED) return [];
    const size = readings.length / PARTS.all;
    const alike = Array.from({ length: PARTS.all }, (_, k) =>
      readings.slice(k * size, (k + 1) * size),
    ).filter((part) => (driftOf(part)?.perDay ?? 0) / perDay >= 0.5);
    if (alike.length < PARTS.least) return [];
    const last = alike[alike.length - 1];
    return [
      fault({
        ...{ kind: 'soc-drift', part: null, size: perDay },
        // of the parts that show it: it may have begun within the log
        ...{ fromS: timeOf(ground, alike[0][0].step), toS: timeOf(ground, last[last.length - 1].step + 1) },
        evidence: { perDay, fullCharges: fulls, explained, hours: readings.length },
      }),
    ];
  },
};

/**
 * Drift of the meter [1/day], fitted together with what energy in and out and a steady draw that the power column does
 * not see make of the charge: such a draw goes on when full, a drift ends. And the part of what else is left that it
 * explains.
 */
function driftOf(readings: readonly CountedReading[]): { perDay: number; explained: number } | null {
  if (readings.length < LEAST_READINGS) return null;
  const stretches = readings.map(({ stretch }) => stretch);
  const level = (of: (reading: CountedReading) => number) => withoutMeans(readings.map(of), stretches);
  const soc = level((reading) => reading.soc);
  const others = [level(({ inKwh }) => inKwh), level(({ outKwh }) => outKwh), level(({ day }) => day)];
  const saw = leastSquares([...others, level(({ daysSinceFull }) => daysSinceFull)], soc);
  const none = leastSquares(others, soc);
  if (saw === null || none === null) return null;
  return { perDay: saw.coefficients[3], explained: 1 - saw.leftSquares / none.leftSquares };
}
