import { OUTAGE_ENERGY, OUTAGE_POWER, OUTAGE_TANK_DRY, OUTAGE_TRIP } from '../../src/sim/causes.ts';
import { chargesNow } from './decision.ts';
import type { Flow } from './flow.ts';
import { EPS } from './near-miss.ts';
import type { Now } from './now.ts';
import { engineRuns, fuelLeftL, isTripped, phasesOf, type Site, sum } from './site.ts';

/** Books one segment; the state is still that of its start. */
export function book(site: Site, now: Now, flow: Flow, litres: number): void {
  bookLoad(site, now, flow);
  bookClimate(site, now, flow);
  bookEngine(site, flow, litres);
  bookPowers(site, now, flow);
  bookAccount(site, now, flow);
  bookChargeTimers(site, flow);
}

/** Unserved load by phase and cause [kW], and what of it is not merely energy running out. */
function unservedParts(site: Site, now: Now, flow: Flow) {
  const emptyCause =
    site.plant.generator && site.plant.tank && site.watch.atMost(fuelLeftL(site), 0)
      ? OUTAGE_TANK_DRY
      : OUTAGE_ENERGY;
  const byCauseKw = new Array(site.totals.unservedByCauseKwh.length).fill(0);
  let outrightKw = 0;
  for (const k of phasesOf(site)) {
    const loadPart = now.wantedKw[k] > 0 ? now.loadKw[k] / now.wantedKw[k] : 0;
    if (flow.mode === 'off' || flow.mode === 'dead') {
      byCauseKw[emptyCause] += now.loadKw[k];
      outrightKw += now.loadKw[k];
    } else if (isTripped(site, k)) {
      byCauseKw[OUTAGE_TRIP] += now.loadKw[k];
      outrightKw += now.loadKw[k];
    } else {
      const overKw = loadPart * flow.overLimitKw[k];
      const shortKw = loadPart * (1 - flow.share) * flow.carriedKw[k];
      byCauseKw[OUTAGE_POWER] += overKw;
      byCauseKw[flow.shortage === 'power' ? OUTAGE_POWER : emptyCause] += shortKw;
      outrightKw += overKw + (flow.shortage === 'power' ? shortKw : 0);
    }
  }
  return { byCauseKw, outrightKw };
}

function bookLoad(site: Site, now: Now, flow: Flow): void {
  const { totals, sums } = site;
  const { hours } = flow;
  const { byCauseKw, outrightKw } = unservedParts(site, now, flow);
  for (const k of phasesOf(site)) {
    const unservedKwh = (1 - flow.servedFrac[k]) * now.loadKw[k] * hours;
    totals.loadKwh += now.loadKw[k] * hours;
    totals.servedKwh += flow.servedFrac[k] * now.loadKw[k] * hours;
    totals.unservedByPhaseKwh[k] += unservedKwh;
    totals.unservedKwh += unservedKwh;
    sums.unservedKwh += unservedKwh;
  }
  byCauseKw.forEach((kw: number, cause: number) => {
    totals.unservedByCauseKwh[cause] += kw * hours;
  });
  // the power served until the energy is gone, and nothing from then on
  const servedFirstH = outrightKw > EPS ? 0 : flow.share * hours;
  if (sum(byCauseKw) > EPS) totals.unservedH += hours - servedFirstH;
  bookOutage(site, byCauseKw, hours, servedFirstH);
}

function bookOutage(site: Site, byCauseKw: readonly number[], hours: number, servedFirstH: number): void {
  const { state, watch } = site;
  const kwh = sum(byCauseKw) * hours;
  if (kwh > 1e-12) watch.note(kwh, 1e-9);
  if (kwh <= 1e-9) {
    closeOutage(site);
    return;
  }
  const cause = firstCause(byCauseKw, hours);
  state.outage ??= { startH: site.nowH + servedFirstH, endH: 0, kwh: 0, cause };
  state.outage.kwh += kwh;
  state.outage.cause = Math.min(state.outage.cause, cause);
}

/** The first in precedence with more than 1e-9 kWh in the segment; where none has, the largest. */
function firstCause(byCauseKw: readonly number[], hours: number): number {
  const first = byCauseKw.findIndex((kw) => kw * hours > 1e-9);
  return first >= 0 ? first : byCauseKw.indexOf(Math.max(...byCauseKw));
}

export function closeOutage(site: Site): void {
  const { outage } = site.state;
  if (!outage) return;
  outage.endH = site.nowH;
  site.outages.push(outage);
  site.state.outage = null;
}

function climateServedKw(site: Site, now: Now, flow: Flow): number {
  return (sum(flow.servedFrac) * now.climateKw) / site.plant.phases;
}

function bookClimate(site: Site, now: Now, flow: Flow): void {
  if (now.climateKw === 0) return;
  const kwh = climateServedKw(site, now, flow) * flow.hours;
  const heaterKwh = (kwh * now.heaterKw) / now.climateKw;
  const coolerKwh = (kwh * now.coolerKw) / now.climateKw;
  site.totals.climateServedKwh += kwh;
  site.totals.heaterKwh += heaterKwh;
  site.totals.coolerKwh += coolerKwh;
  site.sums.heaterKwh += heaterKwh;
  site.sums.coolerKwh += coolerKwh;
}

function bookEngine(site: Site, { generatorKw, hours }: Flow, litres: number): void {
  const { state, totals, watch } = site;
  if (!engineRuns(state)) return;
  const { ratedKw } = site.plant.generator!;
  const run = state.run!;
  state.levelL -= site.plant.tank ? litres : 0;
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
    sum(flow.servedFrac.map((part, k) => part * now.loadKw[k])) + climateServedKw(site, now, flow);
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
