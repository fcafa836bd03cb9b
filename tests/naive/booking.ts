import { bookLoad } from './booking-load.ts';
import { chargesNow } from './duties.ts';
import type { Flow } from './flow.ts';
import { EPS } from './near-miss.ts';
import type { Now } from './now.ts';
import { bookOverloads } from './overload.ts';
import { bookShifted } from './shiftable.ts';
import { engineRuns, type Site, setInUse, sum } from './site.ts';
import { wellAfterKwh } from './well.ts';

/** Books one segment; the state is still that of its start. */
export function book(site: Site, now: Now, flow: Flow, litres: number): void {
  bookLoad(site, now, flow);
  bookShifted(site, flow);
  bookOwnUse(site, now, flow);
  bookEngine(site, flow, litres);
  bookPowers(site, now, flow);
  bookAccount(site, now, flow);
  bookOverloads(site, now, flow);
  bookChargeTimers(site, flow);
  site.state.wellKwh = wellAfterKwh(site, flow.energyKwh, flow.hours);
  site.state.energyKwh = flow.energyKwh;
}

function ownUseServedKw(site: Site, now: Now, flow: Flow): number {
  return (sum(flow.servedFrac) * now.ownUseKw) / site.plant.phases;
}

function bookOwnUse(site: Site, now: Now, flow: Flow): void {
  const { totals, sums } = site;
  if (now.ownUseKw === 0) return;
  const servedPart = ownUseServedKw(site, now, flow) / now.ownUseKw;
  const kwh = (wantedKw: number) => servedPart * wantedKw * flow.hours;
  totals.ownKwh += kwh(now.generatorOwnKw);
  site.state.places.forEach(({ heaterKw, coolerKw }, i) => {
    totals.climateKwh += kwh(heaterKw + coolerKw);
    totals.heaterKwh += kwh(heaterKw);
    totals.coolerKwh += kwh(coolerKw);
    sums.heaterKwh[i] += kwh(heaterKw);
    sums.coolerKwh[i] += kwh(coolerKw);
  });
}

function bookEngine(site: Site, { generatorKw, hours }: Flow, litres: number): void {
  const { state, totals, watch } = site;
  if (!engineRuns(state)) return;
  const { ratedKw } = setInUse(site);
  const run = state.run!;
  if (state.secondInUse) {
    totals.secondFuelL += litres;
    totals.secondRunH += hours;
  } else if (site.plant.tank) state.levelL -= litres;
  run.litres += litres;
  run.kwh += generatorKw * hours;
  totals.fuelL += litres;
  totals.generatorKwh += generatorKw * hours;
  site.sums.generatorKwh += generatorKw * hours;
  totals.runH += hours;
  if (site.inputs.night?.[site.step] === 1) totals.nightH += hours;
  if (watch.below(generatorKw, 0.3 * ratedKw)) totals.lowLoadH += hours;
  if (state.engine !== 'on load') return;
  run.onLoadH += hours;
  totals.onLoadH += hours;
  const tenths = (10 * generatorKw) / ratedKw;
  watch.note(tenths, Math.min(9, Math.round(tenths)));
  totals.loadingH[Math.min(9, Math.floor(tenths + EPS))] += hours;
}

function batteryLossKw(site: Site, flow: Flow): number {
  const { battery } = site.plant;
  if (!battery) return 0;
  return flow.chargeKw * (1 - battery.chargeEff) + flow.dischargeKw * (1 / battery.dischargeEff - 1);
}

function bookPowers(site: Site, now: Now, flow: Flow): void {
  const { totals, sums, state } = site;
  const { hours } = flow;
  const lossKw = batteryLossKw(site, flow);
  totals.dcPotentialKwh += now.dcArrayKw * hours;
  totals.acPotentialKwh += now.acArrayKw * hours;
  totals.dcUsedKwh += flow.dcUsedKw * hours;
  totals.acUsedKwh += flow.acUsedKw * hours;
  totals.chargeKwh += flow.chargeKw * hours;
  totals.dischargeKwh += flow.dischargeKw * hours;
  totals.batteryLossKwh += lossKw * hours;
  totals.standbyKwh += flow.standbyKw * hours;
  totals.idleKwh += flow.idleKw * hours;
  totals.inverterLossKwh += flow.inverterLossKw * hours;
  totals.chargerLossKwh += flow.chargerLossKw * hours;
  totals.frostKwh += flow.frostKw * hours;
  totals.deratedKwh += flow.deratedKw * hours;
  if (state.site === 'cut off') totals.cutoffH += hours;
  if (state.site === 'dead') totals.deadH += hours;
  sums.dcUsedKwh += flow.dcUsedKw * hours;
  sums.acUsedKwh += flow.acUsedKw * hours;
  sums.batteryKwh += (flow.chargeKw - flow.dischargeKw) * hours;
  sums.airLossKwh += (flow.inverterLossKw + flow.idleKw + flow.chargerLossKw) * hours;
  sums.batteryLossKwh += (lossKw + flow.standbyKw) * hours;
}

/** Sources = served + losses + stored. */
function bookAccount(site: Site, now: Now, flow: Flow): void {
  const { hours } = flow;
  const sourcesKwh = (flow.generatorKw + flow.dcUsedKw + flow.acUsedKw) * hours;
  const servedKw =
    sum(flow.servedFrac.map((part, k) => part * now.loadKw[k])) +
    sum(flow.shiftedKw) +
    ownUseServedKw(site, now, flow);
  const lossesKw =
    flow.inverterLossKw + flow.idleKw + flow.chargerLossKw + flow.standbyKw + batteryLossKw(site, flow);
  const storedKwh = flow.energyKwh - site.state.energyKwh;
  const residualKwh = Math.abs(sourcesKwh - (servedKw + lossesKw) * hours - storedKwh);
  site.totals.worstResidualKwh = Math.max(site.totals.worstResidualKwh, residualKwh);
}

/** Tail and absorption of a charging run. */
function bookChargeTimers(site: Site, flow: Flow): void {
  const { state, watch } = site;
  const { battery } = site.plant;
  if (flow.mode !== 'generator' || !battery) return;
  state.tailH = flow.tailing ? state.tailH + flow.hours : 0;
  const taperKwh = battery.taperStartSoc * battery.capacityKwh;
  if (chargesNow(site) && watch.atLeast(state.energyKwh, taperKwh)) state.absorptionH += flow.hours;
}
