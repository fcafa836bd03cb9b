import { charge, drawOnBattery, type Flow, noFlow } from './flow.ts';
import { dcForAcKw } from './inverter.ts';
import { EPS } from './near-miss.ts';
import type { Now } from './now.ts';
import { allInvertersKw } from './now.ts';
import { carryLimitKw } from './overload.ts';
import { runOnSurplus } from './shiftable.ts';
import { isTripped, phasesOf, type Site, sum } from './site.ts';

/** Per phase [kW]. */
export interface InverterPhase {
  /** load and array that are there */
  wantedKw: number;
  arrayKw: number;
  /** load left for the inverter, what of it is within its limit, array left for the charger */
  deficitKw: number;
  carriedKw: number;
  surplusKw: number;
}

export function inverterPhases(site: Site, now: Now): InverterPhase[] {
  return phasesOf(site).map((k) => {
    const tripped = isTripped(site, k);
    const wantedKw = tripped ? 0 : now.wantedKw[k];
    const arrayKw = tripped || site.state.arrayWaitH > EPS ? 0 : now.acArrayPhaseKw[k];
    const deficitKw = Math.max(0, wantedKw - arrayKw);
    return {
      wantedKw,
      arrayKw,
      deficitKw,
      carriedKw: Math.min(deficitKw, carryLimitKw(site, now, k)),
      surplusKw: Math.max(0, arrayKw - wantedKw),
    };
  });
}

/** Section 5, mode inverters. */
export function flowInverters(site: Site, now: Now, hours: number): Flow {
  const { inverter } = site.plant;
  const flow = noFlow(site, 'inverters', hours);
  const phases = inverterPhases(site, now);
  phases.forEach(({ deficitKw }, k) => {
    site.watch.note(deficitKw, carryLimitKw(site, now, k));
  });
  flow.carriedKw = phases.map(({ carriedKw }) => carriedKw);
  flow.overLimitKw = phases.map(({ deficitKw }, k) => deficitKw - flow.carriedKw[k]);

  const chargersKw = sum(phases.map(({ surplusKw }, k) => Math.min(surplusKw, now.chargerLimitKw[k])));
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
    phases.map((_, k) => {
      const coolKw = inverter.ratedKw * now.inServiceFrac[k];
      return Math.max(0, Math.min(neededOf(k), coolKw) - now.inverterLimitKw[k]);
    }),
  );
  if (sourcesKw > neededKw) runOnSurplus(site, now, flow, phases, intoChargersKw);
  return flow;
}
