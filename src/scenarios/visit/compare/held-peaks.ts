import type { VisitGround } from '../ground.ts';
import type { Estimate } from '../visit.ts';
import { MARGIN_SOC } from './hours-in-force.ts';
import type { LogSeries } from './log-series.ts';

/** A start without at least this share of the peak threshold on any phase was for another reason. */
const LEAST_SHARE = 0.5;
/** So little above its threshold a peak starts the engine. */
const ABOVE = 1.001;

/**
 * The logged load with the peaks that started the engine: a log has what was served, and inverters that are at their
 * limit hold back what is above it, as the mean of a step hides a peak of seconds. Where the engine started on a battery
 * that was not low, at a site that starts it by peak, the phase with the most load had at least what starts it.
 * @param loadKw by phase, as logged
 * @returns the same where no start was by peak, or another rule may start the engine
 */
export function withHeldPeaks(
  ground: VisitGround,
  { on, socFrac, known }: Pick<LogSeries, 'on' | 'socFrac' | 'known'>,
  loadKw: readonly Float64Array[],
  estimates: readonly Estimate[],
): readonly Float64Array[] {
  const { control, inverter } = ground.site;
  const { charge, peak, full, hand, exercise, continuous } = control;
  if (peak === null || on === null || socFrac === null) return loadKw;
  if (full !== null || hand !== null || exercise !== null || continuous) return loadKw;
  const startKw = peak.startKw ?? inverter.ratedKva * inverter.powerFactor * inverter.unitsPerPhase;
  const told = estimates.flatMap((one) => (one.key === 'startSoc' && one.value !== null ? [one.value] : []));
  const low = MARGIN_SOC + Math.max(charge?.startSoc ?? 0, ...told);
  const raised = loadKw.map((kw) => kw.slice());
  for (let i = 1; i < on.length; i++) {
    if (!(known[i] === 1 && known[i - 1] === 1 && on[i] === 1 && on[i - 1] === 0)) continue;
    if (charge !== null && !(socFrac[i - 1] > low)) continue;
    let [phase, step] = [0, i];
    for (const [k, kw] of loadKw.entries())
      for (const j of [i - 1, i]) if (kw[j] > loadKw[phase][step]) [phase, step] = [k, j];
    if (loadKw[phase][step] < LEAST_SHARE * startKw) continue;
    const byArrayKw = acArrayKw(ground, step) * (ground.acArrayShare[phase] ?? 0);
    raised[phase][step] = Math.max(raised[phase][step], ABOVE * startKw + byArrayKw);
  }
  return raised;
}

/** What AC-coupled arrays have to give in a step, by the logged sun where there is one: it carries load by itself. */
function acArrayKw({ site, sunArraysKw, designedArraysKw }: VisitGround, step: number): number {
  return site.arrays.reduce((sum, { name, coupling }) => {
    if (coupling !== 'ac') return sum;
    const bySun = sunArraysKw?.[name][step] ?? Number.NaN;
    return sum + (Number.isNaN(bySun) ? designedArraysKw[name][step] : bySun);
  }, 0);
}
