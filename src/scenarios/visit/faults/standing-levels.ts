import { medianOf, spreadOf } from '../../middle-values.ts';
import type { VisitGround } from '../ground.ts';
import { engineStretches } from './engine-runs.ts';
import { stepHours } from './log-days.ts';

/** Readings on either side of a step that are compared, and steps between them in which the level may still change. */
const BESIDE = 5;
const BETWEEN = 2;
/** A change at once is one beyond so many deviations of a reading, this share of the tank and so many litres. */
const AT_ONCE = { deviations: 5, tankShare: 0.01, litres: 4 };
/** The engine may still burn, and fuel flow back, before and after a stand [h]. */
const MARGIN_H = 0.25;

/** Levels of the tank with the engine stopped, in stretches without a delivery, a gap or a sudden loss. */
export interface StandingLevels {
  stretches: { steps: number[] }[];
  /** levels that fell at once [L] */
  drops: { step: number; litres: number }[];
  /** deviation of one reading [L] */
  noiseL: number;
}

export function standingLevels(ground: VisitGround): StandingLevels {
  const fuelL = ground.record.columns.fuelL as Float64Array;
  const margin = Math.ceil(MARGIN_H / stepHours(ground));
  const stands = engineStretches(ground, 0).map(({ from, to }) => ({ from: from + margin, to: to - margin }));
  const noiseL = noiseOf(fuelL, stands);
  const { deviations, tankShare, litres } = AT_ONCE;
  const least = Math.max(deviations * noiseL, tankShare * (ground.site.tank?.capacityL ?? 0), litres);
  const drops: StandingLevels['drops'] = [];
  const stretches: StandingLevels['stretches'] = [];
  for (const { from, to } of stands) {
    const steps: number[] = [];
    for (let i = from; i < to; i++) if (!Number.isNaN(fuelL[i])) steps.push(i);
    const changes = atOnce(fuelL, steps, least);
    let start = 0;
    for (const { at, litres: changed } of changes) {
      if (changed < 0) drops.push({ step: steps[at], litres: -changed });
      stretches.push({ steps: steps.slice(start, Math.max(start, at - BETWEEN)) });
      start = at + BETWEEN;
    }
    stretches.push({ steps: steps.slice(start) });
  }
  return { stretches: stretches.filter(({ steps }) => steps.length > 2 * BESIDE), drops, noiseL };
}

/** Where the level changed within a few readings by more than `least`: the places where it did so most. */
function atOnce(
  fuelL: Float64Array,
  steps: readonly number[],
  least: number,
): { at: number; litres: number }[] {
  const changes = steps.map((_, k) => {
    if (k < BESIDE + BETWEEN || k + BESIDE + BETWEEN > steps.length) return 0;
    const level = (from: number, to: number) => medianOf(steps.slice(from, to).map((i) => fuelL[i]));
    return level(k + BETWEEN, k + BETWEEN + BESIDE) - level(k - BETWEEN - BESIDE, k - BETWEEN);
  });
  const found: { at: number; litres: number }[] = [];
  for (let k = 0; k < changes.length; k++) {
    if (Math.abs(changes[k]) < least) continue;
    let end = k;
    let at = k;
    while (end + 1 < changes.length && Math.abs(changes[end + 1]) >= least) {
      end++;
      if (Math.abs(changes[end]) > Math.abs(changes[at])) at = end;
    }
    // the middle of a flat top
    const top = Array.from({ length: end - k + 1 }, (_, j) => k + j).filter(
      (j) => Math.abs(changes[j]) >= 0.9 * Math.abs(changes[at]),
    );
    found.push({ at: top[top.length >> 1], litres: changes[at] });
    k = end;
  }
  return found;
}

/** Deviation of one reading, from the differences of neighbours with the engine stopped; rounding is part of it. */
function noiseOf(fuelL: Float64Array, stands: readonly { from: number; to: number }[]): number {
  const differences: number[] = [];
  for (const { from, to } of stands)
    for (let i = from + 1; i < to; i++)
      if (!Number.isNaN(fuelL[i] - fuelL[i - 1])) differences.push(fuelL[i] - fuelL[i - 1]);
  const spread = spreadOf(differences) / Math.SQRT2;
  return Number.isNaN(spread) ? 0 : spread;
}
