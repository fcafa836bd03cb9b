import { inverterPhases } from './flow-inverters.ts';
import { modeOf } from './mode.ts';
import { EPS } from './near-miss.ts';
import type { Now } from './now.ts';
import { type Site, sum } from './site.ts';
import { isOverloaded, overloadsTheBattery } from './trips.ts';

/** The latch of the rule, once a step (section 3). */
export function settleShedLatch(site: Site, shownKwh: number): void {
  const { state, watch } = site;
  const { shed } = site.controls;
  const { battery } = site.plant;
  if (!shed || !battery) return;
  const { capacityKwh } = battery;
  if (watch.atMost(shownKwh, shed.belowSoc * capacityKwh)) state.shedLatch = true;
  else if (watch.atLeast(shownKwh, shed.aboveSoc * capacityKwh)) state.shedLatch = false;
}

/** Whether load is shed just now, and what is wanted then. */
export function settleShedding(site: Site, now: Now): void {
  const { state } = site;
  now.shed = state.engine !== 'on load' && (state.shedLatch || state.shedH > EPS);
  now.loadKw = now.wholeLoadKw.map((kw, k) => (now.shed ? kw - now.sheddableKw[k] : kw));
  now.wantedKw = now.loadKw.map((kw) => kw + now.ownUseKw / site.plant.phases);
}

/** Before anything trips, load is shed that may be (section 5.2). */
export function shedFirst(site: Site, now: Now): void {
  const { controls, state } = site;
  if (!controls.shed || modeOf(site) !== 'inverters' || now.shed || sum(now.sheddableKw) <= EPS) return;
  const phases = inverterPhases(site, now);
  if (!phases.some((_, k) => isOverloaded(site, now, k)) && !overloadsTheBattery(site, now)) return;
  state.shedH = controls.shed.overloadH;
  settleShedding(site, now);
}
