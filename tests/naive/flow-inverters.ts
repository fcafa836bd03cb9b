import { charge, drawOnBattery, type Flow, noFlow } from './flow.ts';
import { dcForAcKw } from './inverter.ts';
import { EPS } from './near-miss.ts';
import type { Now } from './now.ts';
import { allInvertersKw } from './now.ts';
import { isTripped, phasesOf, type Site, sum } from './site.ts';

/** Per phase: load and array that are there, load left for the inverter, array left for the charger [kW]. */
export function inverterPhases(site: Site, now: Now) {
  return phasesOf(site).map((k) => {
    const tripped = isTripped(site, k);
    const wantedKw = tripped ? 0 : now.wantedKw[k];
    const arrayKw = tripped || site.state.arrayWaitH > EPS ? 0 : now.acArrayPhaseKw[k];
    return {
      wantedKw,
      arrayKw,
      deficitKw: Math.max(0, wantedKw - arrayKw),
      surplusKw: Math.max(0, arrayKw - wantedKw),
    };
  });
}

/** Section 5, mode inverters. */
export function flowInverters(site: Site, now: Now, hours: number): Flow {
  const { inverter } = site.plant;
  const flow = noFlow(site, 'inverters', hours);
  const phases = inverterPhases(site, now);
  for (const { deficitKw } of phases) site.watch.note(deficitKw, now.inverterLimitKw);
  flow.carriedKw = phases.map(({ deficitKw }) => Math.min(deficitKw, now.inverterLimitKw));
  flow.overLimitKw = phases.map(({ deficitKw }, k) => deficitKw - flow.carriedKw[k]);

  const chargersKw = sum(phases.map(({ surplusKw }) => Math.min(surplusKw, now.chargerLimitKw)));
  const neededKw = now.baseKw + allInvertersKw(site, flow.carriedKw);
  const sourcesKw = now.dcArrayKw + inverter.chargerEff * chargersKw;
  let intoChargersKw = chargersKw;
  if (sourcesKw >= neededKw) {
    flow.frostKw = charge(site, now, flow, sourcesKw - neededKw);
    flow.dcUsedKw = Math.min(now.dcArrayKw, neededKw + flow.chargeKw);
    intoChargersKw = (neededKw + flow.chargeKw - flow.dcUsedKw) / inverter.chargerEff;
    flow.standbyKw = now.standbyKw;
    flow.idleKw = now.idleKw;
  } else {
    drawOnBattery(site, now, flow, sourcesKw, neededKw - sourcesKw);
    flow.dcUsedKw = now.dcArrayKw;
  }

  const directKw = phases.map(({ wantedKw, arrayKw }) => Math.min(wantedKw, arrayKw));
  flow.acUsedKw = sum(directKw) + intoChargersKw;
  flow.chargerLossKw = intoChargersKw * (1 - inverter.chargerEff);
  flow.servedFrac = now.wantedKw.map((wanted, k) =>
    wanted === 0 ? 1 : (directKw[k] + flow.share * flow.carriedKw[k]) / wanted,
  );
  const deliveredKw = flow.carriedKw.map((kw) => flow.share * kw);
  flow.inverterLossKw = sum(deliveredKw.map((kw) => dcForAcKw(inverter, kw) - kw));
  const neededOf = (k: number) => (isTripped(site, k) ? now.wantedKw[k] : phases[k].deficitKw);
  flow.deratedKw = sum(
    phases.map((_, k) => Math.max(0, Math.min(neededOf(k), inverter.ratedKw) - now.inverterLimitKw)),
  );
  return flow;
}
