import type { Inputs } from '../../../sim/inputs.ts';
import { sumOfColumns } from '../../sum-columns.ts';
import type { LogSeries } from './log-series.ts';

/**
 * The load of the log, by phase, for a run: where it is not known, the designed one times what was measured over what
 * was designed. Where the phases were not logged one by one, each has its designed share of the step.
 * @returns null where the log has no load
 */
export function measuredLoad(
  designed: Pick<Inputs, 'loadKw' | 'sheddableKw'>,
  { loadKw, phasesKw }: Pick<LogSeries, 'loadKw' | 'phasesKw'>,
): { inputs: Pick<Inputs, 'loadKw' | 'sheddableKw'>; factor: number; filledSteps: number } | null {
  if (loadKw === null) return null;
  const phases = designed.loadKw.length;
  const allKw = sumOfColumns(designed.loadKw);
  let [measured, expected, filledSteps] = [0, 0, 0];
  for (const [i, kw] of loadKw.entries()) {
    if (Number.isNaN(kw)) filledSteps++;
    else {
      measured += kw;
      expected += allKw[i];
    }
  }
  const factor = expected > 0 ? measured / expected : 1;
  const inPhase = (k: number) =>
    designed.loadKw[k].map((kw, i) => {
      const logged = phasesKw?.[k][i] ?? Number.NaN;
      if (!Number.isNaN(logged)) return Math.max(0, logged);
      if (Number.isNaN(loadKw[i])) return kw * factor;
      return Math.max(0, loadKw[i] * (allKw[i] > 0 ? kw / allKw[i] : 1 / phases));
    });
  const byPhase = designed.loadKw.map((_, k) => inPhase(k));
  const sheddableKw = designed.sheddableKw?.map((kw, k) =>
    kw.map((value, i) => Math.min(value * factor, byPhase[k][i])),
  );
  return { inputs: { loadKw: byPhase, ...(sheddableKw && { sheddableKw }) }, factor, filledSteps };
}
