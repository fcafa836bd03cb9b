import { assistLimitKw, generatorPhases, setKw } from './flow-generator.ts';
import { inverterPhases } from './flow-inverters.ts';
import { modeOf } from './mode.ts';
import { allInvertersKw, type Now } from './now.ts';
import { carryLimitKw } from './overload.ts';
import { callPerson } from './people.ts';
import { isBypassed, isTripped, phasesOf, type Site, sum } from './site.ts';

/** Section 5.2: overloaded phases switch off. */
export function tripPhases(site: Site, now: Now): void {
  const { controls } = site;
  const mode = modeOf(site);
  if (controls.shortfall !== 'trip' || (mode !== 'inverters' && mode !== 'generator')) return;
  for (const k of phasesOf(site)) {
    if (isOverloaded(site, now, k)) trip(site, controls.tripAllPhases ? phasesOf(site) : [k]);
  }
  const someLeft = phasesOf(site).some((k) => !isTripped(site, k));
  if (mode === 'inverters' && someLeft && overloadsTheBattery(site, now)) trip(site, phasesOf(site));
}

/** Load on a phase is above what is there to carry it. */
export function isOverloaded(site: Site, now: Now, k: number): boolean {
  const { watch } = site;
  const bySet = isBypassed(site) && setKw(site, k) > 0;
  if (isTripped(site, k) || !(bySet || now.inServiceFrac[k] > 0)) return false;
  if (modeOf(site) === 'generator')
    return watch.above(generatorPhases(site, now)[k].overKw, assistLimitKw(site, now, k));
  return watch.above(inverterPhases(site, now)[k].deficitKw, carryLimitKw(site, now, k));
}

/** Load within each inverter's limit may still be more than battery and arrays can feed. */
export function overloadsTheBattery(site: Site, now: Now): boolean {
  const phases = inverterPhases(site, now);
  const carriedKw = phases.map(({ carriedKw }) => carriedKw);
  const chargersKw = sum(phases.map(({ surplusKw }, k) => Math.min(surplusKw, now.chargerLimitKw[k])));
  const neededKw = allInvertersKw(site, carriedKw) + now.baseKw;
  const fromBatteryKw = neededKw - now.dcArrayKw - site.plant.inverter.chargerEff * chargersKw;
  return site.watch.above(fromBatteryKw, now.maxDischargeKw);
}

function trip(site: Site, phases: readonly number[]): void {
  for (const k of phases) site.state.tripH[k] = site.controls.restartDelayH;
  site.totals.trips += 1;
  lockOut(site);
}

/** Too many trips in a row: all inverters stay off until somebody comes. */
function lockOut(site: Site): void {
  const { state, watch } = site;
  const { lock } = site.controls;
  if (!lock) return;
  const follows = watch.atMost(site.nowH - state.lastTripH, lock.withinH);
  state.tripsInRow = follows ? state.tripsInRow + 1 : 1;
  state.lastTripH = site.nowH;
  if (state.tripsInRow < lock.trips) return;
  state.invertersLockedOut = true;
  state.tripH.fill(Number.POSITIVE_INFINITY);
  site.totals.lockOuts += 1;
  callPerson(site);
}
