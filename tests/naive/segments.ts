import { cutoffKwh } from './battery.ts';
import { book } from './booking.ts';
import { attemptStart, engineStands, goesOnLoad } from './engine-changes.ts';
import type { Flow } from './flow.ts';
import { noFlow } from './flow.ts';
import { flowGenerator } from './flow-generator.ts';
import { flowInverters, inverterPhases } from './flow-inverters.ts';
import { flowOff } from './flow-off.ts';
import { fuelLPerH } from './fuel-line.ts';
import { modeOf } from './mode.ts';
import { EPS } from './near-miss.ts';
import type { Now } from './now.ts';
import { budgetsLastH } from './overload.ts';
import { callPerson, personComes } from './people.ts';
import { settleShedding, shedFirst } from './shedding.ts';
import { engineRuns, fuelLeftL, type Site, setInUse } from './site.ts';
import { tripPhases } from './trips.ts';

/** What is left of a step below this is rounding [h]. */
const NOTHING_LEFT_H = 1e-12;

/** So little fuel is none [L]. */
const NO_FUEL_L = 1e-12;

/** Section 5: the step in stretches without change of state. */
export function runSegments(site: Site, now: Now): void {
  const startH = site.step * site.stepH;
  let leftH = site.stepH;
  while (leftH > NOTHING_LEFT_H) {
    site.nowH = startH + (site.stepH - leftH);
    leftH -= segment(site, now, leftH);
  }
}

/** One segment of at most `leftH`; returns its length. */
function segment(site: Site, now: Now, leftH: number): number {
  const { state } = site;
  timersRunOut(site);
  settleShedding(site, now);
  shedFirst(site, now);
  tripPhases(site, now);
  let flow = flowsOf(site, now, segmentLength(site, now, leftH));
  const runsDry = exceedsFuel(site, flow);
  if (runsDry) {
    if (fuelLeftL(site) <= NO_FUEL_L) {
      engineStands(site, true);
      return 0;
    }
    flow = untilDry(site, now, flow);
  }
  book(site, now, flow, litresOf(site, flow));
  passTime(site, flow.hours);
  site.nowH += flow.hours;
  if (runsDry) engineStands(site, true);
  if (flow.mode === 'inverters' && flow.shortage === 'energy') state.site = 'cut off';
  dieIfEmpty(site);
  return flow.hours;
}

/** 5.1 */
function timersRunOut(site: Site): void {
  const { state } = site;
  for (let changed = true; changed; ) {
    changed = true;
    const countedDown = state.engineH <= EPS;
    if (personComes(site)) continue;
    if (state.engine === 'starting' && countedDown) attemptStart(site);
    else if (state.engine === 'warming' && countedDown) goesOnLoad(site);
    else if (state.engine === 'cooling' && countedDown) engineStands(site, false);
    else changed = false;
  }
}

/** 5.3; a timer that ends with the step but for rounding leaves no segment behind it. */
function segmentLength(site: Site, now: Now, leftH: number): number {
  const { state } = site;
  const timersH = [...state.tripH, state.shedH, state.callH ?? 0];
  if (state.engine !== 'stopped' && state.engine !== 'on load') timersH.push(state.engineH);
  if (now.acArrayKw > 0) timersH.push(state.arrayWaitH);
  if (modeOf(site) === 'inverters') {
    const carriedKw = inverterPhases(site, now).map((phase) => phase.carriedKw);
    timersH.push(...budgetsLastH(site, now, carriedKw));
  }
  return Math.min(leftH, ...timersH.filter((timerH) => timerH > EPS && timerH < leftH - EPS));
}

/** 5.4 */
function flowsOf(site: Site, now: Now, hours: number): Flow {
  switch (modeOf(site)) {
    case 'generator':
      return flowGenerator(site, now, hours);
    case 'inverters':
      return flowInverters(site, now, hours);
    case 'off':
      return flowOff(site, now, hours);
    case 'dead':
      return noFlow(site, 'dead', hours);
  }
}

/** 5.5 */
function exceedsFuel(site: Site, flow: Flow): boolean {
  if (!engineRuns(site.state) || site.state.secondInUse) return false;
  return site.watch.above(litresOf(site, flow), fuelLeftL(site));
}

/** The segment cut to what the fuel gives; a battery takes a little more, in the mean, over a shorter time. */
function untilDry(site: Site, now: Now, longer: Flow): Flow {
  const fuelL = fuelLeftL(site);
  let flow = longer;
  for (let round = 0; Math.abs(litresOf(site, flow) - fuelL) > NO_FUEL_L; round++) {
    if (round === 1000) throw new Error('the time until the tank is dry does not settle');
    flow = flowsOf(site, now, (fuelL * flow.hours) / litresOf(site, flow));
  }
  return flow;
}

function litresOf(site: Site, flow: Flow): number {
  if (!engineRuns(site.state)) return 0;
  return fuelLPerH(setInUse(site), flow.generatorKw) * flow.hours;
}

/** All countdowns go on. */
function passTime({ state }: Site, hours: number): void {
  const less = (timerH: number) => Math.max(0, timerH - hours);
  state.engineH = less(state.engineH);
  state.restH = less(state.restH);
  state.arrayWaitH = less(state.arrayWaitH);
  state.shedH = less(state.shedH);
  if (state.callH !== null) state.callH = less(state.callH);
  state.tripH = state.tripH.map(less);
  if (state.engine === 'on load') state.timeOnLoadH += hours;
}

/** 5.7: the battery's own protection opens. */
function dieIfEmpty(site: Site): void {
  const { state, watch } = site;
  const { battery } = site.plant;
  if (!battery || state.site !== 'cut off' || state.visited || battery.deadSoc < 0) return;
  if (!watch.atMost(state.energyKwh, battery.deadSoc * battery.capacityKwh)) return;
  state.site = 'dead';
  callPerson(site);
}

/** Section 2: a cut-off site whose battery has risen again. */
export function reconnect(site: Site): void {
  const { state, watch } = site;
  const { battery } = site.plant;
  if (!battery || state.site !== 'cut off') return;
  const enoughKwh = cutoffKwh(battery) + battery.reconnectSoc * battery.capacityKwh;
  if (!watch.atLeast(state.energyKwh, enoughKwh)) return;
  const { kinetic } = battery;
  if (kinetic && !watch.atLeast(state.wellKwh, kinetic.atHandFrac * enoughKwh)) return;
  state.site = 'on';
  state.visited = false;
}
