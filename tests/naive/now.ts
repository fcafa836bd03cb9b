import { chargeFactor } from './battery.ts';
import { thermostats } from './cabinet.ts';
import { dcForAcKw, deratingFactor } from './inverter.ts';
import { phasesOf, type Site, sum } from './site.ts';

/** What can be done and what is wanted in a step (section 3) [kW]. */
export interface Now {
  /** charge factor 0 to 1, and the charge limit with it */
  chargeFactor: number;
  chargeLimitKw: number;
  /** per phase */
  inverterLimitKw: number;
  chargerLimitKw: number;
  heaterKw: number;
  coolerKw: number;
  climateKw: number;
  loadKw: number[];
  wantedKw: number[];
  dcArrayKw: number;
  acArrayKw: number;
  acArrayPhaseKw: number[];
  idleKw: number;
  standbyKw: number;
  baseKw: number;
  maxDischargeKw: number;
}

export function whatCanBeDone(site: Site): Now {
  const { plant, inputs, state, step } = site;
  const { battery, inverter } = plant;
  const chargePart = battery ? chargeFactor(battery, state.batteryC) : 0;
  settleFrost(site);
  const ratingPart = deratingFactor(inverter, state.airC);
  const { heaterKw, coolerKw } = thermostats(site);
  const climateKw = heaterKw + coolerKw;
  const loadKw = inputs.loadKw.map((series) => series[step]);
  const acArrayKw = inputs.acArrayKw?.[step] ?? 0;
  const idleKw = inverter.idleKw * plant.phases;
  const standbyKw = battery?.standbyKw ?? 0;
  return {
    chargeFactor: chargePart,
    chargeLimitKw: (battery?.maxChargeKw ?? 0) * chargePart,
    inverterLimitKw: inverter.ratedKw * ratingPart,
    chargerLimitKw: inverter.chargerKw * ratingPart,
    heaterKw,
    coolerKw,
    climateKw,
    loadKw,
    wantedKw: loadKw.map((kw) => kw + climateKw / plant.phases),
    dcArrayKw: inputs.dcArrayKw?.[step] ?? 0,
    acArrayKw,
    acArrayPhaseKw: phasesOf(site).map((k) => plant.acArrayShare[k] * acArrayKw),
    idleKw,
    standbyKw,
    baseKw: idleKw + standbyKw,
    maxDischargeKw: battery?.maxDischargeKw ?? 0,
  };
}

/** Frozen cells stay so until they are `thawMarginC` above the limit. */
function settleFrost(site: Site): void {
  const { battery } = site.plant;
  const { state, watch } = site;
  if (!battery) return;
  if (watch.exactlyAtMost(state.batteryC, battery.chargeNoneC)) state.frozen = true;
  else if (!watch.exactlyBelow(state.batteryC, battery.chargeNoneC + battery.thawMarginC))
    state.frozen = false;
}

/** Σ inv(P) over all phases [kW]. */
export const allInvertersKw = (site: Site, acKw: readonly number[]): number =>
  sum(acKw.map((kw) => dcForAcKw(site.plant.inverter, kw)));
