import { medianOf } from '../../middle-values.ts';
import type { VisitGround } from '../ground.ts';
import type { Fault } from '../visit.ts';
import { type Detector, fault, unmet } from './detector.ts';
import { FAULT_TERMS } from './fault-terms.ts';
import { stepHours, timeOf } from './log-days.ts';

const COLUMNS = ['load1Kw', 'load2Kw', 'load3Kw'] as const;
/** Nothing: so much, or this share of the phase's median load if that is more. */
const NOTHING = { kw: 0.015, share: 0.1 };
/** A phase is looked at when nothing has come for so long [h]. */
const LEAST_H = 5;
/** Less than this would have come otherwise: a quiet time [kWh]. */
const LEAST_KWH = 0.3;
/** The others carry at least this share of their usual load: not a site without power. */
const OTHERS = 0.4;

/** A phase that carries nothing for hours in which it usually does, and the others do. */
export const phaseMissing: Detector = {
  kind: 'phase-missing',
  lacks: ({ site, record }) =>
    unmet([
      [site.inverter.phases === 3, 'part: three phases'],
      [COLUMNS.every((name) => record.columns[name]), 'each phase by itself'],
    ]),
  find(ground) {
    const { record } = ground;
    const phases = COLUMNS.map((name) => record.columns[name] as Float64Array);
    const { leastSize } = FAULT_TERMS['phase-missing'];
    const faults: Fault[] = [];
    const usual = phases.map((kw, k) => usualLoad(ground, kw, ground.designed.loadKw[k]));
    for (const [k, kw] of phases.entries()) {
      for (const { from, to } of quietRuns(ground, kw)) {
        const mean = (values: (i: number) => number) => {
          let sum = 0;
          for (let i = from; i < to; i++) sum += Number.isNaN(kw[i]) ? 0 : values(i);
          return sum / known(kw, from, to);
        };
        const expectedKw = mean((i) => usual[k](i));
        const hours = known(kw, from, to) * stepHours(ground);
        const others = [0, 1, 2].filter((each) => each !== k);
        const othersKw = mean((i) => others.reduce((sum, each) => sum + phases[each][i], 0));
        const othersUsualKw = mean((i) => others.reduce((sum, each) => sum + usual[each](i), 0));
        if (hours < LEAST_H || expectedKw < leastSize || expectedKw * hours < LEAST_KWH) continue;
        if (othersKw < OTHERS * othersUsualKw) continue;
        faults.push(
          fault({
            ...{ kind: 'phase-missing', part: `phase ${k + 1}`, size: expectedKw },
            ...{ fromS: timeOf(ground, from), toS: timeOf(ground, to) },
            evidence: { hours, expectedKw, seenKw: mean((i) => kw[i]), othersKw, othersUsualKw },
          }),
        );
      }
    }
    return faults;
  },
};

function known(kw: Float64Array, from: number, to: number): number {
  let count = 0;
  for (let i = from; i < to; i++) if (!Number.isNaN(kw[i])) count++;
  return count;
}

/** Stretches in which a phase carries nothing; steps without a value do not end one. */
function quietRuns(ground: VisitGround, kw: Float64Array): { from: number; to: number }[] {
  const most = Math.max(NOTHING.kw, NOTHING.share * medianOf(kw.filter((value) => value > NOTHING.kw)));
  const runs: { from: number; to: number }[] = [];
  let from = -1;
  let to = -1;
  for (let i = 0; i <= kw.length; i++) {
    if (i < kw.length && Number.isNaN(kw[i])) continue;
    if (i < kw.length && kw[i] <= (Number.isNaN(most) ? NOTHING.kw : most)) {
      if (from < 0) from = i;
      to = i + 1;
    } else if (from >= 0) {
      if ((to - from) * stepHours(ground) >= LEAST_H) runs.push({ from, to });
      from = -1;
    }
  }
  return runs;
}

/**
 * Usual load of a phase by hour of the day, weekdays and weekends apart: the median over the log without days on which
 * it carried nothing at all, or the designed load where that leaves none.
 */
function usualLoad({ calendar }: VisitGround, kw: Float64Array, designed: Float64Array) {
  const bins: number[][] = Array.from({ length: 48 }, () => []);
  const binOf = (i: number) => Math.floor(calendar.minuteOfDay[i] / 60) + (calendar.weekday[i] >= 5 ? 24 : 0);
  const alive = new Map<number, number>();
  for (let i = 0; i < kw.length; i++) {
    const day = calendar.dayNumber[i];
    if (!Number.isNaN(kw[i])) alive.set(day, Math.max(alive.get(day) ?? 0, kw[i]));
  }
  for (let i = 0; i < kw.length; i++)
    if ((alive.get(calendar.dayNumber[i]) ?? 0) > NOTHING.kw && !Number.isNaN(kw[i]))
      bins[binOf(i)].push(kw[i]);
  const medians = bins.map(medianOf);
  return (i: number) => {
    const usual = medians[binOf(i)];
    return Number.isNaN(usual) ? designed[i] : usual;
  };
}
