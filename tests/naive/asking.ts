import {
  CAUSE_BYPASS,
  CAUSE_CHARGE,
  CAUSE_CONTINUOUS,
  CAUSE_EXERCISE,
  CAUSE_FULL,
  CAUSE_HAND,
  CAUSE_PEAK,
} from '../../src/sim/causes.ts';
import type { Raw } from './conditions.ts';
import { isAttended, isBypassed, type Site } from './site.ts';

/** A cause that wants the generator, and how long it still has to wait [h]. */
export interface Asking {
  cause: number;
  waitH: number;
}

const isRestricted = ({ inputs, step }: Site): boolean => inputs.restricted?.[step] === 1;

/** Restricted hours that end a run which need not be. */
export const restrictedEnds = (site: Site): boolean => isRestricted(site) && site.controls.restrictedEndsRun;

export const isInRunWindow = ({ inputs, step }: Site): boolean => inputs.runWindow?.[step] !== 0;

/** Causes that ask in this step, in their order of precedence. */
export function causesThatAsk(site: Site, raw: Raw): Asking[] {
  const { controls, state, stepH, watch } = site;
  const blocked = !raw.urgent && (isRestricted(site) || state.frozen);
  const asking: Asking[] = [];
  const ask = (cause: number, delayH = 0, heldH = 0) =>
    asking.push({ cause, waitH: Math.max(0, delayH - heldH) });

  if (isBypassed(site)) ask(CAUSE_BYPASS);
  if (controls.hand && raw.hand && isAttended(site))
    ask(CAUSE_HAND, controls.hand.responseH, state.heldHandH);
  if (controls.charge && raw.lowCharge && !blocked)
    ask(CAUSE_CHARGE, controls.charge.delayH, state.heldChargeH);
  if (controls.peak && raw.peak) ask(CAUSE_PEAK, controls.peak.delayH, state.heldPeakH);
  if (isFullDue(site) && !blocked) ask(CAUSE_FULL);
  if (state.exerciseDue && (raw.urgent || !isRestricted(site))) ask(CAUSE_EXERCISE);
  if (controls.continuous && isInRunWindow(site)) ask(CAUSE_CONTINUOUS);
  return asking.filter(({ waitH }) => watch.below(waitH, stepH));
}

function isFullDue({ controls, plant, state, watch }: Site): boolean {
  if (!controls.full || !plant.battery) return false;
  return watch.atLeast(state.sinceFullH, controls.full.everyH);
}

/** The first in precedence of those that need not wait any more. */
export function asksNow(site: Site, asking: readonly Asking[], butNot = -1): number | null {
  const found = asking.find(({ cause, waitH }) => cause !== butNot && site.watch.atMost(waitH, 0));
  return found ? found.cause : null;
}

/** An exercise run falls due where the calendar says so, unless the set was on load not long ago. */
export function exerciseFallsDue(site: Site): void {
  const { controls, state, inputs, watch } = site;
  if (!controls.exercise || inputs.exerciseDue?.[site.step] !== 1) return;
  if (watch.atLeast(state.sinceOnLoadH, controls.exercise.unlessWithinH)) state.exerciseDue = true;
}
