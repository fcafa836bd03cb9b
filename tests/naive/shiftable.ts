import type { Flow } from './flow.ts';
import type { InverterPhase } from './flow-inverters.ts';
import { dcForAcKw } from './inverter.ts';
import type { Now } from './now.ts';
import { isTripped, phasesOf, type Site, sum } from './site.ts';

/** So little surplus is none [kW]. */
const NO_SURPLUS_KW = 1e-9;

/** Loads that cannot wait any longer (section 3): what joins the load of each phase in this step [kW]. */
export function mustRunKw(site: Site): number[] {
  const { state, stepH, step, totals, watch } = site;
  const joinsKw: number[] = phasesOf(site).map(() => 0);
  (site.plant.shiftable ?? []).forEach(({ phase, kw, kwhPerDay }, j) => {
    const deadlines = site.inputs.shiftDeadline?.[j];
    if (deadlines?.[step] === 1) {
      totals.shiftMissedKwh += state.shiftLeftKwh[j];
      state.shiftLeftKwh[j] = kwhPerDay;
    }
    const next = deadlines ? deadlines.indexOf(1, step + 1) : -1;
    const untilH = next < 0 ? Number.POSITIVE_INFINITY : (next - step) * stepH;
    const leftKwh = state.shiftLeftKwh[j];
    if (!watch.above(leftKwh, 0) || !watch.atLeast(leftKwh, kw * (untilH - stepH))) return;
    const runsKw = Math.min(kw, leftKwh / stepH);
    joinsKw[phase] += runsKw;
    state.shiftLeftKwh[j] -= runsKw * stepH;
    totals.shiftForcedKwh += runsKw * stepH;
  });
  return joinsKw;
}

/** Loads that run on what the arrays have left over after a segment in mode inverters. */
export function runOnSurplus(
  site: Site,
  now: Now,
  flow: Flow,
  phases: readonly InverterPhase[],
  intoChargersKw: number,
): void {
  const { inverter } = site.plant;
  const couldChargeKw = phases.map(({ surplusKw }, k) => Math.min(surplusKw, now.chargerLimitKw[k]));
  const chargedPart = sum(couldChargeKw) > 0 ? intoChargersKw / sum(couldChargeKw) : 0;
  const acLeftKw = phases.map(({ surplusKw }, k) => surplusKw - chargedPart * couldChargeKw[k]);
  const carriedKw = [...flow.carriedKw];
  let dcLeftKw = now.dcArrayKw - flow.dcUsedKw;

  flow.shiftedKw = (site.plant.shiftable ?? []).map(({ phase: k, kw }, j) => {
    const leftKwh = site.state.shiftLeftKwh[j];
    if (!site.watch.above(leftKwh, 0) || isTripped(site, k)) return 0;
    const wishKw = Math.min(kw, leftKwh / flow.hours);

    const directKw = acLeftKw[k] > NO_SURPLUS_KW ? Math.min(wishKw, acLeftKw[k]) : 0;
    acLeftKw[k] -= directKw;
    flow.acUsedKw += directKw;
    if (dcLeftKw <= NO_SURPLUS_KW) return directKw;

    const roomKw = Math.max(0, now.inverterLimitKw[k] - carriedKw[k]);
    const extraDcKw = (kw: number) =>
      dcForAcKw(inverter, carriedKw[k] + kw) - dcForAcKw(inverter, carriedKw[k]);
    const throughKw = mostWithin(extraDcKw, dcLeftKw, Math.min(wishKw - directKw, roomKw));
    const dcKw = extraDcKw(throughKw);
    dcLeftKw -= dcKw;
    flow.dcUsedKw += dcKw;
    flow.inverterLossKw += dcKw - throughKw;
    carriedKw[k] += throughKw;
    return directKw + throughKw;
  });
}

/** The most of `mostKw` at which a rising `needKw` is within `haveKw`, by halving. */
function mostWithin(needKw: (kw: number) => number, haveKw: number, mostKw: number): number {
  if (needKw(mostKw) <= haveKw) return mostKw;
  let low = 0;
  let high = mostKw;
  for (let halving = 0; halving < 100; halving++) {
    const middle = (low + high) / 2;
    if (needKw(middle) <= haveKw) low = middle;
    else high = middle;
  }
  return low;
}

export function bookShifted(site: Site, flow: Flow): void {
  flow.shiftedKw.forEach((kw, j) => {
    const kwh = kw * flow.hours;
    site.state.shiftLeftKwh[j] -= kwh;
    site.totals.shiftedKwh += kwh;
    site.totals.loadKwh += kwh;
    site.totals.servedKwh += kwh;
  });
}
