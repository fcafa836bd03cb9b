import { CAUSE_CHARGE, CAUSE_CONTINUOUS, CAUSE_PEAK } from '../../src/sim/causes.ts';
import { cameBack, leaveLoad } from './engine-changes.ts';
import { allInvertersKw, type Now } from './now.ts';
import { fuelLeftL, isTripped, type Site } from './site.ts';

/** What is true at the start of a step (section 4). */
export interface Raw {
  lowCharge: boolean;
  peak: boolean;
  calm: boolean;
  urgent: boolean;
}

/** A cause that wants the generator, and how long it still has to wait [h]. */
interface Asking {
  cause: number;
  waitH: number;
}

export function rawConditions(site: Site, now: Now): Raw {
  return {
    lowCharge: lowCharge(site),
    peak: peak(site, now),
    calm: calm(site, now),
    urgent: site.watch.atMost(
      site.state.energyKwh,
      site.controls.urgentSoc * (site.plant.battery?.capacityKwh ?? 0),
    ),
  };
}

function lowCharge({ plant, controls, state, watch }: Site): boolean {
  if (!controls.charge || !plant.battery) return false;
  return watch.atMost(state.energyKwh, controls.charge.startSoc * plant.battery.capacityKwh);
}

function peak(site: Site, now: Now): boolean {
  const rule = site.controls.peak;
  if (!rule || site.state.site !== 'on') return false;
  const { watch } = site;
  const needKw = now.wantedKw.map((wanted, k) =>
    Math.max(0, isTripped(site, k) ? wanted : wanted - now.acArrayPhaseKw[k]),
  );
  if (needKw.some((need) => watch.above(need, rule.startKw))) return true;
  if (needKw.some((need) => watch.above(need, now.inverterLimitKw))) return true;
  return watch.above(allInvertersKw(site, needKw) + now.baseKw, now.maxDischargeKw + now.dcArrayKw);
}

function calm(site: Site, now: Now): boolean {
  const rule = site.controls.peak;
  if (!rule) return false;
  const { watch } = site;
  return (
    now.wantedKw.every((wanted) => watch.atMost(wanted, rule.stopKw)) &&
    now.wantedKw.every((wanted) => watch.atMost(wanted, now.inverterLimitKw)) &&
    watch.atMost(allInvertersKw(site, now.wantedKw) + now.baseKw, now.maxDischargeKw + now.dcArrayKw)
  );
}

/** Causes that ask in this step, in their order of precedence. */
function causesThatAsk(site: Site, raw: Raw): Asking[] {
  const { controls, state, stepH, watch } = site;
  const restricted = site.inputs.restricted?.[site.step] === 1;
  const blocked = !raw.urgent && (restricted || state.frozen);
  const asking: Asking[] = [];
  if (controls.charge && raw.lowCharge && !blocked) {
    asking.push({ cause: CAUSE_CHARGE, waitH: Math.max(0, controls.charge.delayH - state.heldChargeH) });
  }
  if (controls.peak && raw.peak) {
    asking.push({ cause: CAUSE_PEAK, waitH: Math.max(0, controls.peak.delayH - state.heldPeakH) });
  }
  if (controls.continuous) asking.push({ cause: CAUSE_CONTINUOUS, waitH: 0 });
  return asking.filter(({ waitH }) => watch.below(waitH, stepH));
}

/** The first in precedence of those that need not wait any more. */
function asksNow(site: Site, asking: readonly Asking[], butNot = -1): number | null {
  const found = asking.find(({ cause, waitH }) => cause !== butNot && site.watch.atMost(waitH, 0));
  return found ? found.cause : null;
}

/** The generator's decision at the start of a step. */
export function decide(site: Site, raw: Raw): void {
  if (!site.plant.generator) return;
  const asking = causesThatAsk(site, raw);
  if (site.state.engine === 'stopped') decideStopped(site, asking);
  else if (site.state.engine === 'on load') decideOnLoad(site, raw, asking);
  else if (site.state.engine === 'cooling') decideCooling(site, asking);
}

function decideStopped(site: Site, asking: readonly Asking[]): void {
  const { state, stepH, watch } = site;
  const generator = site.plant.generator!;
  if (!watch.above(fuelLeftL(site), 0) || state.site === 'dead') return;
  if (state.site === 'cut off' && !generator.blackStart && !state.visited) return;
  if (asking.length === 0) return;
  let soonest = asking[0];
  for (const other of asking) if (watch.below(other.waitH, soonest.waitH)) soonest = other;
  const countdownH = Math.max(soonest.waitH, state.restH);
  if (!watch.below(countdownH, stepH)) return;
  state.engine = 'starting';
  state.engineH = countdownH + generator.startDelayH;
  state.cause = soonest.cause;
}

function decideOnLoad(site: Site, raw: Raw, asking: readonly Asking[]): void {
  const { controls, state, watch } = site;
  if (state.duty > CAUSE_CHARGE && asksNow(site, asking) === CAUSE_CHARGE) takeDuty(site, CAUSE_CHARGE);
  if (watch.atLeast(state.timeOnLoadH, controls.maxRunH)) {
    state.endedByLongestRun = true;
    leaveLoad(site);
    return;
  }
  if (!watch.atLeast(state.timeOnLoadH, controls.minRunH) || !dutySatisfied(site, raw)) return;
  const another = asksNow(site, asking, state.duty);
  if (another === null) leaveLoad(site);
  else takeDuty(site, another);
}

function dutySatisfied(site: Site, raw: Raw): boolean {
  const { controls, state, watch } = site;
  if (state.duty === CAUSE_PEAK) return raw.calm && watch.atLeast(state.heldCalmH, controls.peak!.holdH);
  if (state.duty !== CAUSE_CHARGE) return false;
  const rule = controls.charge!;
  const restricted = site.inputs.restricted?.[site.step] === 1;
  return (
    watch.atLeast(state.energyKwh, rule.stopSoc * site.plant.battery!.capacityKwh) ||
    (rule.tailKw > 0 && watch.atLeast(state.tailH, rule.tailH)) ||
    watch.atLeast(state.absorptionH, rule.absorptionMaxH) ||
    (state.frozen && !raw.urgent) ||
    (restricted && controls.restrictedEndsRun && !raw.urgent)
  );
}

function decideCooling(site: Site, asking: readonly Asking[]): void {
  const cause = asksNow(site, asking);
  if (cause === null || site.state.endedByLongestRun || !site.watch.above(fuelLeftL(site), 0)) return;
  cameBack(site);
  takeDuty(site, cause);
}

function takeDuty({ state }: Site, duty: number): void {
  state.duty = duty;
  state.tailH = 0;
  state.absorptionH = 0;
}

/** At the end of the step: how long each condition has now been true at the start of every step. */
export function holdConditions({ state, stepH }: Site, raw: Raw): void {
  state.heldChargeH = raw.lowCharge ? state.heldChargeH + stepH : 0;
  state.heldPeakH = raw.peak ? state.heldPeakH + stepH : 0;
  const calmCounts = raw.calm && state.engine === 'on load' && state.duty === CAUSE_PEAK;
  state.heldCalmH = calmCounts ? state.heldCalmH + stepH : 0;
}

export const chargesNow = ({ controls, state }: Site): boolean =>
  state.duty === CAUSE_PEAK ? controls.peak!.charges : true;
