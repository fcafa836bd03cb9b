import {
  OUTAGE_ENERGY,
  OUTAGE_PERSON_AWAY,
  OUTAGE_POWER,
  OUTAGE_START_FAILURE,
  OUTAGE_TANK_DRY,
  OUTAGE_TRIP,
} from '../../src/sim/causes.ts';
import type { Flow } from './flow.ts';
import { EPS } from './near-miss.ts';
import type { Now } from './now.ts';
import { fuelLeftL, isAttended, isOutOfOrder, isTripped, phasesOf, type Site, sum } from './site.ts';

/** What to call a want of energy: what holds the generator back, if anything does. */
function emptyCause(site: Site): number {
  const { state, plant, watch } = site;
  if (!plant.generator) return OUTAGE_ENERGY;
  if (!state.secondInUse) {
    if (state.startLockedOut || isOutOfOrder(site)) return OUTAGE_START_FAILURE;
    if (state.toBeBled || watch.atMost(fuelLeftL(site), 0)) return OUTAGE_TANK_DRY;
  }
  const somebodyIsWanted = state.callH !== null || state.handHolds;
  return somebodyIsWanted && !isAttended(site) ? OUTAGE_PERSON_AWAY : OUTAGE_ENERGY;
}

/** Unserved load by cause [kW], and what of it is not merely energy running out. */
function unservedParts(site: Site, now: Now, flow: Flow) {
  const wantCause = emptyCause(site);
  const byCauseKw = new Array(site.totals.unservedByCauseKwh.length).fill(0);
  let outrightKw = 0;
  for (const k of phasesOf(site)) {
    const loadPart = now.wantedKw[k] > 0 ? now.loadKw[k] / now.wantedKw[k] : 0;
    if (flow.mode === 'off' || flow.mode === 'dead') {
      byCauseKw[wantCause] += now.loadKw[k];
      outrightKw += now.loadKw[k];
    } else if (isTripped(site, k)) {
      byCauseKw[OUTAGE_TRIP] += now.loadKw[k];
      outrightKw += now.loadKw[k];
    } else {
      const overKw = loadPart * flow.overLimitKw[k];
      const shortKw = loadPart * (1 - flow.share) * flow.carriedKw[k];
      byCauseKw[OUTAGE_POWER] += overKw;
      byCauseKw[flow.shortage === 'power' ? OUTAGE_POWER : wantCause] += shortKw;
      outrightKw += overKw + (flow.shortage === 'power' ? shortKw : 0);
    }
  }
  return { byCauseKw, outrightKw };
}

/** Load served, shed and unserved in a segment. */
export function bookLoad(site: Site, now: Now, flow: Flow): void {
  const { totals, sums } = site;
  const { hours } = flow;
  const { byCauseKw, outrightKw } = unservedParts(site, now, flow);
  for (const k of phasesOf(site)) {
    const unservedKwh = (1 - flow.servedFrac[k]) * now.loadKw[k] * hours;
    totals.loadKwh += now.wholeLoadKw[k] * hours;
    totals.servedKwh += flow.servedFrac[k] * now.loadKw[k] * hours;
    totals.unservedByPhaseKwh[k] += unservedKwh;
    totals.unservedKwh += unservedKwh;
    sums.unservedKwh += unservedKwh;
  }
  const shedKw = now.shed ? sum(now.sheddableKw) : 0;
  if (shedKw > 0) {
    totals.shedKwh += shedKw * hours;
    totals.shedH += hours;
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
