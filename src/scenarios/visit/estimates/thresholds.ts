import type { Estimate } from '../visit.ts';
import { type Bracket, LEAST_AGREEING, latestAgreed } from './brackets.ts';
import { hasLongSteps, type LogView, missing, SHORT_STEPS } from './log-view.ts';
import { refused, within } from './outcome.ts';
import { type LoggedRun, loggedRuns } from './runs.ts';

/** A start within this time of the end of restricted hours was waited for [h]. */
const WAITED_H = 0.5;
/** A mean load of this share of what starts a peak run has started it; of less, it may hide a peak within the step. */
const PEAK_SHARE = 0.85;
const SURE_SHARE = 0.6;
/** Where there are peak runs, so many that are surely none must agree. */
const LEAST_SURE = 3;
/** A run to a stop threshold raises the charge by more than this. */
const LEAST_RISE = 0.1;
/** A start at a charge above this is for another reason. */
const FULL = 0.95;
/** Where peak runs may end too, a stop above this tells nothing. */
const FULL_STOP = 0.98;
/**
 * Share of the meter's quantum that its ends may be off by: starts that come at the same charge again and again read the
 * same, and the few that were started by something else just beside them push the ends.
 */
const ROUNDED = 0.12;
/** Inverters draw this much more than the load and their idle draw, or a little less. */
const DRAW = 1.06;

/**
 * Start and stop thresholds of charging on the shown state of charge: each start brackets one between the charge just
 * before and that at which it began. Where most brackets agree, every value between their ends is as likely as any.
 */
export function thresholds(view: LogView): [Estimate, Estimate] {
  const soc = view.column('socFrac');
  const lacks = missing({ socFrac: soc, generatorOn: view.running });
  if (soc === null || lacks !== '')
    return [refused('startSoc', 'no-column', lacks), refused('stopSoc', 'no-column', lacks)];
  const runs = loggedRuns(view);
  const starts = runs.flatMap((run) => startBracket(view, soc, run) ?? []);
  const stops = runs.flatMap((run) => stopBracket(view, soc, run) ?? []);
  // how far the charge rose and fell again in a long step is told by the load alone, and not where peak runs end too
  const isHidden = hasLongSteps(view) && (view.loadKw === null || view.site.control.peak !== null);
  return [
    fromBrackets('startSoc', 'starts', starts, view),
    isHidden
      ? refused('stopSoc', 'not-told-apart', SHORT_STEPS)
      : fromBrackets('stopSoc', 'stops', stops, view),
  ];
}

function fromBrackets(
  key: 'startSoc' | 'stopSoc',
  of: 'starts' | 'stops',
  brackets: readonly Bracket[],
  view: LogView,
): Estimate {
  const latest = latestAgreed(brackets, view.site.control.peak ? LEAST_SURE : 0);
  if (latest === null)
    return refused(key, 'too-little', `${brackets.length} ${of}, ${LEAST_AGREEING} that agree needed`);
  const { found, from } = latest;
  const middle = (found.low + found.high) / 2;
  // nine tenths of an even chance between the two ends, and what rounding leaves open of them
  const half = 0.45 * (found.high - found.low) + ROUNDED * view.quantum('socFrac');
  const { charge } = view.site.control;
  const designed = charge ? charge[key] : null;
  const fromS = from === 0 ? view.startS : view.startS + brackets[from].step * view.stepS;
  const basis = { count: found.agree, of };
  return within(key, middle, [middle - half, middle + half], view, { designed, basis, fromS });
}

/** Between the charge when the wait for the start began and that of the check before. */
function startBracket(view: LogView, soc: Float64Array, { first, beginsKnown }: LoggedRun): Bracket | null {
  const { hours, site, running, ground } = view;
  const waitSteps = (site.control.charge?.delayMin ?? 0) / 60 / hours;
  const before = first - 1 - Math.floor(waitSteps + 1e-9);
  if (!beginsKnown || before < 3 || afterRestricted(ground.designed.restricted, first, hours)) return null;
  const peak = peakShare(view, first);
  if (peak > PEAK_SHARE) return null;
  const share = (running as Float64Array)[first];
  const half = view.quantum('socFrac') / 2;
  // an engine that ran in part of the step began that much later, and the check before was within the step
  const part = share < 1 ? 1 - share : 0;
  const low = soc[before] - half - fallOf(view, first) * part;
  const high = levelAt(soc, first - 1 - waitSteps - (part > 0 ? 0 : 1)) + half;
  if (!(high > low && high < FULL)) return null;
  return { low, high, step: first, isSure: peak < SURE_SHARE };
}

/** Charge between the ends of two steps. */
function levelAt(soc: Float64Array, step: number): number {
  const from = Math.floor(step);
  return soc[from] + (soc[from + 1] - soc[from]) * (step - from);
}

/** How far the charge may fall in a step by its load alone. */
function fallOf({ loadKw, arrayKw, plant, hours }: LogView, step: number): number {
  const { battery, inverter, phases } = plant;
  if (battery === null || loadKw === null) return 0;
  // the first part of the step may have had more of its load than the rest
  const most = Math.max(loadKw[step - 1] || 0, loadKw[step], loadKw[step + 1] || 0);
  const drawnKw = DRAW * most + battery.standbyKw + inverter.idleKw * phases - (arrayKw?.[step] ?? 0);
  return Math.max(0, (drawnKw * hours) / (battery.dischargeEff * battery.capacityKwh)) || 0;
}

function afterRestricted(restricted: Uint8Array | undefined, step: number, hours: number): boolean {
  if (!restricted) return false;
  const back = Math.ceil(WAITED_H / hours);
  for (let i = Math.max(0, step - back); i <= step; i++) if (restricted[i] === 1) return true;
  return false;
}

/** The load at a start, as a share of what starts a peak run; 0 without such runs. */
function peakShare({ site, plant, phaseKw, loadKw }: LogView, step: number): number {
  const { peak } = site.control;
  if (peak === null) return 0;
  const most = Math.min(peak.startKw ?? Number.POSITIVE_INFINITY, plant.inverter.ratedKw);
  const loads = phaseKw ?? (loadKw ? [loadKw] : []);
  return Math.max(0, ...loads.map((kw) => Math.max(kw[step - 1], kw[step]) / most));
}

/** Between the charge at the last step on load but one and at the last. */
function stopBracket(view: LogView, soc: Float64Array, run: LoggedRun): Bracket | null {
  const { hours, site, generatorKw, ground, count } = view;
  const { first, last, lastOnLoad, beginsKnown, endsKnown } = run;
  if (!beginsKnown || !endsKnown || last + 1 >= count) return null;
  const peak = peakShare(view, first);
  if (peak > PEAK_SHARE) return null;
  const { control } = site;
  const coolH = (site.generator?.coolDownMin ?? 0) / 60;
  const lengthH = (last - first + 1) * hours;
  // ended by its shortest time, or by restricted hours, rather than by charge
  if (lengthH <= control.minRunMin / 60 + coolH + 2 * hours) return null;
  if (control.restrictedEndsRun && ground.designed.restricted?.[last] === 1) return null;
  const half = view.quantum('socFrac') / 2;
  const cooling = generatorKw ? 0 : Math.ceil(coolH / hours);
  const to = lastOnLoad - (generatorKw ? 0 : 1);
  const from = to - 1 - Math.max(0, cooling - 1);
  // stopped within the step, the charge fell again in what was left of it
  const part = generatorKw ? Math.min(1, generatorKw[to] / generatorKw[to - 1]) : 0;
  const top = Math.max(soc[to], soc[to - 1], generatorKw ? 0 : soc[last]);
  const high = top + half + fallOf(view, to) * (1 - part);
  const low = soc[from] - half;
  // peak runs end anywhere, and many of them full
  if (control.peak && high > FULL_STOP) return null;
  const rises = soc[to] > soc[first - 1] + LEAST_RISE;
  return rises && from > first && high > low ? { low, high, step: last, isSure: peak < SURE_SHARE } : null;
}
