import { CAUSE_PEAK } from '../../src/sim/causes.ts';
import { allInvertersKw, type Now } from './now.ts';
import { isFirstOut } from './sets-in-turn.ts';
import { isTripped, type Site } from './site.ts';
import { thresholdsNow } from './thresholds.ts';

/** What is true at the start of a step (section 4). */
export interface Raw {
  lowCharge: boolean;
  hand: boolean;
  peak: boolean;
  calm: boolean;
  urgent: boolean;
  firstOut: boolean;
}

export function rawConditions(site: Site, now: Now): Raw {
  const { controls, plant, state } = site;
  const shownAtMost = (soc: number) =>
    site.watch.atMost(now.shownKwh, soc * (plant.battery?.capacityKwh ?? 0));
  const { startSoc, urgentSoc } = thresholdsNow(site);
  const handAsksAt = plant.battery && controls.hand ? controls.hand.startSoc : null;
  return {
    lowCharge: controls.charge !== null && plant.battery !== null && shownAtMost(startSoc),
    hand: handAsksAt !== null && (shownAtMost(handAsksAt) || state.site !== 'on'),
    peak: peak(site, now),
    calm: calm(site, now),
    urgent: shownAtMost(urgentSoc),
    firstOut: isFirstOut(site),
  };
}

function peak(site: Site, now: Now): boolean {
  if (!site.controls.peak || site.state.site !== 'on') return false;
  const { watch } = site;
  const { peakStartKw } = thresholdsNow(site);
  const needKw = now.wantedKw.map((wanted, k) =>
    Math.max(0, isTripped(site, k) ? wanted : wanted - now.acArrayPhaseKw[k]),
  );
  if (needKw.some((need) => watch.above(need, peakStartKw))) return true;
  if (needKw.some((need, k) => watch.above(need, now.inverterLimitKw[k]))) return true;
  return watch.above(allInvertersKw(site, needKw) + now.baseKw, now.maxDischargeKw + now.dcArrayKw);
}

function calm(site: Site, now: Now): boolean {
  if (!site.controls.peak) return false;
  const { watch } = site;
  const { peakStopKw } = thresholdsNow(site);
  return (
    now.wantedKw.every((wanted) => watch.atMost(wanted, peakStopKw)) &&
    now.wantedKw.every((wanted, k) => watch.atMost(wanted, now.inverterLimitKw[k])) &&
    watch.atMost(allInvertersKw(site, now.wantedKw) + now.baseKw, now.maxDischargeKw + now.dcArrayKw)
  );
}

/** At the end of the step: how long each condition has now been true at the start of every step. */
export function holdConditions({ state, stepH }: Site, raw: Raw): void {
  const held = (holds: boolean, heldH: number) => (holds ? heldH + stepH : 0);
  state.heldChargeH = held(raw.lowCharge, state.heldChargeH);
  state.heldHandH = held(raw.hand, state.heldHandH);
  state.heldPeakH = held(raw.peak, state.heldPeakH);
  state.heldOutH = held(raw.firstOut, state.heldOutH);
  const onPeakDuty = state.engine === 'on load' && state.duty === CAUSE_PEAK;
  state.heldCalmH = held(raw.calm && onPeakDuty, state.heldCalmH);
}
