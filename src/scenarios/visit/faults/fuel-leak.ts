import { medianOf } from '../../middle-values.ts';
import type { VisitGround } from '../ground.ts';
import type { Fault } from '../visit.ts';
import { fault } from './detector.ts';
import { FAULT_TERMS, TANK_SHARE } from './fault-terms.ts';
import { leastSquares, withoutMeans } from './least-squares.ts';
import { stepHours, timeOf } from './log-days.ts';
import type { StandingLevels } from './standing-levels.ts';

/** Days that are looked at together, and hours of standing that they need. */
const WINDOW_DAYS = 5;
const LEAST_H = 40;
/** A fall beyond so many of its standard errors. */
const BEYOND_CHANCE = 5;
/** Fuel in a tank follows the outside with a delay of about so much [h]: common practice, half a day. */
const TANK_DELAY_H = 12;

/**
 * A slow fall of the level: of all stretches of some days together, beside what the outside temperature and the hour
 * of the day do to it (diesel fuel swells by about 0.0008 a kelvin; from memory).
 */
export function findLeak(
  ground: VisitGround,
  stretches: StandingLevels['stretches'],
  noiseL: number,
): Fault[] {
  const hours = stepHours(ground);
  const fuelL = ground.record.columns.fuelL as Float64Array;
  const tankC = delayed(ground);
  const { leastSize } = FAULT_TERMS['fuel-loss'];
  const least = Math.max(leastSize, TANK_SHARE * (ground.site.tank?.capacityL ?? 0));
  const readings = stretches.flatMap(({ steps }, stretch) => hourly(fuelL, steps, stretch, hours));
  const days = (fuelL.length * hours) / 24;
  const leaking: { day: number; perDay: number; standing: number }[] = [];
  for (let day = 0; day + WINDOW_DAYS <= days; day++) {
    const [from, to] = [(day * 24) / hours, ((day + WINDOW_DAYS) * 24) / hours];
    const part = readings.filter(({ step }) => step >= from && step < to);
    if (part.length < LEAST_H) continue;
    const groups = part.map(({ stretch }) => stretch);
    const column = (of: (step: number) => number) =>
      withoutMeans(
        part.map(({ step }) => of(step)),
        groups,
      );
    const angle = (step: number) => (step * hours * Math.PI) / 12;
    const level = withoutMeans(
      part.map(({ litres }) => litres),
      groups,
    );
    const columns = [
      column((step) => (step * hours) / 24),
      column((step) => Math.cos(angle(step))),
      column((step) => Math.sin(angle(step))),
      ...(tankC ? [column((step) => tankC[step])] : []),
    ];
    const fit = leastSquares(columns, level);
    if (fit === null) continue;
    const perDay = -fit.coefficients[0];
    if (perDay >= least && perDay >= BEYOND_CHANCE * fit.errors[0])
      leaking.push({ day, perDay, standing: part.length });
  }
  if (leaking.length === 0) return [];
  const [first] = leaking;
  const lastDay = leaking[leaking.length - 1].day + WINDOW_DAYS;
  const litresPerDay = medianOf(leaking.map(({ perDay }) => perDay));
  const standingH = medianOf(leaking.map(({ standing }) => standing));
  return [
    fault({
      ...{ kind: 'fuel-loss', part: null, size: litresPerDay },
      ...{ fromS: timeOf(ground, (first.day * 24) / hours), toS: timeOf(ground, (lastDay * 24) / hours) },
      evidence: { litresPerDay, standingH, days: lastDay - first.day, noiseL },
    }),
  ];
}

/** Means of an hour of standing. */
function hourly(fuelL: Float64Array, steps: readonly number[], stretch: number, hours: number) {
  const perHour = Math.max(1, Math.round(1 / hours));
  const means: { step: number; litres: number; stretch: number }[] = [];
  for (let k = 0; k + perHour <= steps.length; k += perHour) {
    const part = steps.slice(k, k + perHour);
    const litres = part.reduce((sum, i) => sum + fuelL[i], 0) / perHour;
    means.push({ step: part[perHour >> 1], litres, stretch });
  }
  return means;
}

/** Outside temperature, measured or else designed, as a tank follows it [°C]; null without any. */
function delayed({ record, designed }: VisitGround): Float64Array | null {
  const { outsideC } = record.columns;
  if (!outsideC && !designed.airC) return null;
  const share = record.axis.stepMin / 60 / TANK_DELAY_H;
  let value = Number.NaN;
  return Float64Array.from({ length: record.axis.count }, (_, i) => {
    const seen = outsideC?.[i] ?? Number.NaN;
    const now = Number.isNaN(seen) ? (designed.airC?.[i] ?? 0) : seen;
    value = Number.isNaN(value) ? now : value + share * (now - value);
    return value;
  });
}
