import { CAUSE_BYPASS, CAUSE_CHARGE, CAUSE_HAND } from '../../src/sim/causes.ts';
import { type Asking, asksNow, causesThatAsk, exerciseFallsDue } from './asking.ts';
import type { Raw } from './conditions.ts';
import { dutySatisfied, takeDuty } from './duties.ts';
import { cameBack, engineStands, leaveLoad, startIsAsked } from './engine-changes.ts';
import type { Now } from './now.ts';
import { changeOver, isInUseOut } from './sets-in-turn.ts';
import { engineRuns, isOutOfOrder, type Site, setInUse } from './site.ts';

/** The generator's decision at the start of a step (section 4). */
export function decide(site: Site, now: Now, raw: Raw): void {
  if (!site.plant.generator) return;
  exerciseFallsDue(site);
  const cameToStandstill = breaksDown(site);
  changeOver(site, raw.firstOut);
  const asking = causesThatAsk(site, raw);
  const { engine } = site.state;
  if (engine === 'stopped' && !cameToStandstill) decideStopped(site, asking);
  else if (engine === 'on load') decideOnLoad(site, now, raw, asking);
  else if (engine === 'cooling') decideCooling(site, asking);
}

/** A set that is out of order gives up its start, or stands still at once; says whether it came to a standstill. */
function breaksDown(site: Site): boolean {
  const { state } = site;
  if (!isOutOfOrder(site) || state.secondInUse) return false;
  if (state.engine === 'starting') {
    state.engine = 'stopped';
    state.engineH = 0;
  }
  if (!engineRuns(state)) return false;
  engineStands(site, false);
  return true;
}

function decideStopped(site: Site, asking: readonly Asking[]): void {
  const { state, stepH, watch } = site;
  const generator = setInUse(site);
  if (isInUseOut(site) || state.site === 'dead') return;
  const byHandOnly = state.site === 'cut off' && !generator.blackStart && !state.visited;
  const counting = asking.filter(({ cause }) => !byHandOnly || cause === CAUSE_HAND);
  if (counting.length === 0) return;
  let soonest = counting[0];
  for (const other of counting) if (watch.below(other.waitH, soonest.waitH)) soonest = other;
  const countdownH = Math.max(soonest.waitH, state.restH);
  if (watch.below(countdownH, stepH)) {
    startIsAsked(site, countdownH + generator.startDelayH, soonest.cause);
  }
}

function decideOnLoad(site: Site, now: Now, raw: Raw, asking: readonly Asking[]): void {
  const { controls, state, watch } = site;
  const takesOver = asking.find(
    ({ cause, waitH }) => (cause === CAUSE_BYPASS || cause === CAUSE_CHARGE) && watch.atMost(waitH, 0),
  );
  if (takesOver && state.duty > takesOver.cause) takeDuty(site, takesOver.cause);
  if (watch.atLeast(state.timeOnLoadH, controls.maxRunH)) {
    state.endedByLongestRun = true;
    leaveLoad(site);
    return;
  }
  if (!watch.atLeast(state.timeOnLoadH, controls.minRunH) || !dutySatisfied(site, now, raw)) return;
  const another = asksNow(site, asking, state.duty);
  if (another === null) leaveLoad(site);
  else takeDuty(site, another);
}

function decideCooling(site: Site, asking: readonly Asking[]): void {
  const cause = asksNow(site, asking);
  if (cause === null || site.state.endedByLongestRun || isInUseOut(site)) return;
  cameBack(site);
  takeDuty(site, cause);
}
