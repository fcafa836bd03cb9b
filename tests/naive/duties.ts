import {
  CAUSE_BYPASS,
  CAUSE_CHARGE,
  CAUSE_EXERCISE,
  CAUSE_FULL,
  CAUSE_HAND,
  CAUSE_PEAK,
} from '../../src/sim/causes.ts';
import { isInRunWindow, restrictedEnds } from './asking.ts';
import type { Raw } from './conditions.ts';
import type { Now } from './now.ts';
import { isBypassed, type Site } from './site.ts';
import { thresholdsNow } from './thresholds.ts';

export function takeDuty({ state }: Site, duty: number): void {
  state.duty = duty;
  state.tailH = 0;
  state.absorptionH = 0;
}

/** Whether a run on load also charges. */
export const chargesNow = ({ controls, state }: Site): boolean =>
  state.duty === CAUSE_PEAK ? controls.peak!.charges : true;

/** Whether a run on load has done what it is there for. */
export function dutySatisfied(site: Site, now: Now, raw: Raw): boolean {
  const { controls, state, watch } = site;
  switch (state.duty) {
    case CAUSE_BYPASS:
      return !isBypassed(site);
    case CAUSE_HAND:
      return (
        shownAtLeast(site, now, controls.hand!.stopSoc) ||
        watch.atLeast(state.absorptionH, controls.hand!.absorptionMaxH)
      );
    case CAUSE_CHARGE:
      return chargeSatisfied(site, now, raw);
    case CAUSE_PEAK:
      return raw.calm && watch.atLeast(state.heldCalmH, controls.peak!.holdH);
    case CAUSE_FULL:
      return fullSatisfied(site, raw);
    case CAUSE_EXERCISE:
      return watch.atLeast(state.timeOnLoadH, controls.exercise!.runH);
    default:
      return !isInRunWindow(site);
  }
}

const shownAtLeast = (site: Site, now: Now, soc: number): boolean =>
  site.watch.atLeast(now.shownKwh, soc * site.plant.battery!.capacityKwh);

function chargeSatisfied(site: Site, now: Now, raw: Raw): boolean {
  const { state, watch } = site;
  const rule = site.controls.charge!;
  return (
    shownAtLeast(site, now, thresholdsNow(site).stopSoc) ||
    (rule.tailKw > 0 && watch.atLeast(state.tailH, rule.tailH)) ||
    watch.atLeast(state.absorptionH, rule.absorptionMaxH) ||
    (!raw.urgent && (state.frozen || restrictedEnds(site)))
  );
}

function fullSatisfied(site: Site, raw: Raw): boolean {
  const { state, watch } = site;
  const rule = site.controls.full!;
  if (
    watch.atLeast(state.energyKwh, rule.stopSoc * site.plant.battery!.capacityKwh) ||
    watch.atLeast(state.absorptionH, rule.absorptionMaxH)
  ) {
    state.sinceFullH = 0;
    return true;
  }
  return !raw.urgent && (state.frozen || restrictedEnds(site));
}
