import { chargesNow } from './duties.ts';
import { charge, drawOnBattery, type Flow, noFlow } from './flow.ts';
import { dcForAcKw, shareOf } from './inverter.ts';
import { EPS } from './near-miss.ts';
import { allInvertersKw, type Now } from './now.ts';
import { isBypassed, isTripped, phasesOf, type Site, setInUse, sum } from './site.ts';

/** Per phase, with the generator on load [kW]. */
interface GeneratorPhase {
  tripped: boolean;
  wantedKw: number;
  arrayKw: number;
  /** array that carries load above the generator's part */
  arrayOverCapKw: number;
  /** load above both */
  overKw: number;
  /** of which the inverters help with */
  assistKw: number;
  generatorKw: number;
  chargerRoomKw: number;
}

/** What the inverters may help with on a phase [kW]. */
export function assistLimitKw(site: Site, now: Now, k: number): number {
  const helps = site.controls.peakAssist || setKw(site, k) === 0;
  return helps && site.plant.battery ? now.inverterLimitKw[k] : 0;
}

/** What the set can give on a phase [kW]. */
export function setKw(site: Site, k: number): number {
  const { ratedKw, phase } = setInUse(site);
  if (phase === undefined) return ratedKw / site.plant.phases;
  return phase === k ? ratedKw : 0;
}

/** What of that reaches the phase [kW]. */
function capKw(site: Site, now: Now, k: number): number {
  if (isBypassed(site)) return setKw(site, k);
  return Math.min(setKw(site, k), site.plant.inverter.acInputLimitKw * now.inServiceFrac[k]);
}

export function generatorPhases(site: Site, now: Now): GeneratorPhase[] {
  const { controls, state } = site;
  const arrayHeld = controls.acArrayOnLoad === 'held' && !(state.arrayWaitH > EPS);
  return phasesOf(site).map((k) => {
    const tripped = isTripped(site, k);
    const wantedKw = tripped ? 0 : now.wantedKw[k];
    const arrayKw = tripped || !arrayHeld ? 0 : now.acArrayPhaseKw[k];
    const mostKw = capKw(site, now, k);
    const arrayOverCapKw = Math.min(arrayKw, Math.max(0, wantedKw - mostKw));
    const overKw = Math.max(0, wantedKw - arrayOverCapKw - mostKw);
    const generatorKw = Math.min(wantedKw - arrayOverCapKw, mostKw);
    const roomKw = (chargesNow(site) ? Math.min(mostKw, targetKw(site)) : mostKw) - generatorKw;
    return {
      tripped,
      wantedKw,
      arrayKw,
      arrayOverCapKw,
      overKw,
      assistKw: Math.min(overKw, assistLimitKw(site, now, k)),
      generatorKw,
      chargerRoomKw: tripped ? 0 : Math.max(0, Math.min(now.chargerLimitKw[k], roomKw)),
    };
  });
}

/** Output of a phase that charging aims at [kW]. */
const targetKw = ({ controls, plant }: Site): number =>
  (controls.chargeTargetKw ?? Number.POSITIVE_INFINITY) / plant.phases;

/** Section 5, mode generator. */
export function flowGenerator(site: Site, now: Now, hours: number): Flow {
  const { inverter } = site.plant;
  const flow = noFlow(site, 'generator', hours);
  const phases = generatorPhases(site, now);
  phases.forEach(({ overKw }, k) => {
    site.watch.note(overKw, 0);
    site.watch.note(overKw, assistLimitKw(site, now, k));
  });
  flow.carriedKw = phases.map(({ assistKw }) => assistKw);
  flow.overLimitKw = phases.map(({ overKw, assistKw }) => overKw - assistKw);

  // the DC side: arrays first, then the chargers, then the battery
  const allChargersDcKw = inverter.chargerEff * sum(phases.map(({ chargerRoomKw }) => chargerRoomKw));
  const charging = chargesNow(site);
  const mostDcKw = charging ? allChargersDcKw : Math.min(allChargersDcKw, now.baseKw);
  const neededKw = now.baseKw + allInvertersKw(site, flow.carriedKw);
  const offeredKw = now.dcArrayKw + mostDcKw - neededKw;
  let chargersDcKw = mostDcKw;
  if (offeredKw >= 0) {
    flow.frostKw = charge(site, now, flow, offeredKw);
    flow.dcUsedKw = Math.min(now.dcArrayKw, neededKw + flow.chargeKw);
    chargersDcKw = neededKw + flow.chargeKw - flow.dcUsedKw;
    flow.standbyKw = now.standbyKw;
    flow.idleKw = now.idleKw;
  } else {
    drawOnBattery(site, now, flow, now.dcArrayKw + mostDcKw, -offeredKw);
    flow.dcUsedKw = now.dcArrayKw;
  }
  const outputKw = phases.map(
    ({ generatorKw, chargerRoomKw }) =>
      generatorKw + (allChargersDcKw === 0 ? 0 : (chargerRoomKw * chargersDcKw) / allChargersDcKw),
  );
  flow.chargerLossKw = chargersDcKw / inverter.chargerEff - chargersDcKw;
  const deliveredKw = flow.carriedKw.map((kw) => flow.share * kw);
  flow.inverterLossKw = sum(deliveredKw.map((kw) => dcForAcKw(inverter, kw) - kw));

  flow.acUsedKw = sum(phases.map(({ arrayOverCapKw }) => arrayOverCapKw)) + heldArray(site, phases, outputKw);
  if (site.controls.dcToAcOnLoad) surplusToAc(site, now, flow, outputKw);
  flow.frostKw = Math.min(flow.frostKw, now.dcArrayKw - flow.dcUsedKw);

  flow.generatorKw = sum(outputKw);
  flow.servedFrac = now.wantedKw.map((wanted, k) => {
    if (wanted === 0) return 1;
    return (phases[k].arrayOverCapKw + phases[k].generatorKw + deliveredKw[k]) / wanted;
  });
  flow.tailing = charging && isTailing(site, flow, offeredKw);
  return flow;
}

/** How far arrays may push the generator down, all phases together [kW]. */
function headroomKw(site: Site, outputKw: readonly number[]): number {
  const generator = setInUse(site);
  return Math.max(0, sum(outputKw) - generator.minLoadFrac * generator.ratedKw);
}

/** The AC-coupled array held back to the minimum load: takes its part off `outputKw`, returns it. */
function heldArray(site: Site, phases: readonly GeneratorPhase[], outputKw: number[]): number {
  let takenKw = phases.map(({ arrayKw, arrayOverCapKw }, k) =>
    Math.min(arrayKw - arrayOverCapKw, outputKw[k]),
  );
  const roomKw = headroomKw(site, outputKw);
  const wishKw = sum(takenKw);
  if (wishKw > roomKw) takenKw = takenKw.map((kw) => (kw * roomKw) / wishKw);
  takenKw.forEach((kw, k) => {
    outputKw[k] -= kw;
  });
  return sum(takenKw);
}

/** What is left of the DC-coupled array goes through inverters that are not helping already. */
function surplusToAc(site: Site, now: Now, flow: Flow, outputKw: number[]): void {
  const { inverter } = site.plant;
  const leftKw = now.dcArrayKw - flow.dcUsedKw;
  if (leftKw <= EPS) return;
  const free = phasesOf(site).filter((k) => flow.carriedKw[k] <= EPS && outputKw[k] > 0);
  if (free.length === 0) return;
  const freeKw = free.map((k) => outputKw[k]);
  const part = Math.min(
    1,
    shareOf(inverter, leftKw, freeKw),
    headroomKw(site, outputKw) / sum(freeKw),
    ...free.map((k) => now.inverterLimitKw[k] / outputKw[k]),
  );
  for (const k of free) {
    const throughKw = part * outputKw[k];
    outputKw[k] -= throughKw;
    flow.dcUsedKw += dcForAcKw(inverter, throughKw);
    flow.inverterLossKw += dcForAcKw(inverter, throughKw) - throughKw;
  }
}

/** The battery, not the offer, limits a charging power that has become small. */
function isTailing({ controls, watch }: Site, flow: Flow, offeredKw: number): boolean {
  const tailKw = controls.charge?.tailKw ?? 0;
  if (tailKw === 0 || offeredKw <= 0) return false;
  return watch.below(flow.chargeKw, offeredKw) && watch.exactlyBelow(flow.chargeKw, tailKw);
}
