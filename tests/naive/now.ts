import { chargeFactor } from './battery.ts';
import { thermostats } from './cabinet.ts';
import { dcForAcKw, deratingFactor } from './inverter.ts';
import { settleShedding, settleShedLatch } from './shedding.ts';
import { mustRunKw } from './shiftable.ts';
import { clamp, engineRuns, isBypassed, phasesOf, placesWithBattery, type Site, sum } from './site.ts';

/** What can be done and what is wanted in a step (section 3) [kW]. */
export interface Now {
  /** stored energy as the meter shows it [kWh] */
  shownKwh: number;
  /** charge factor 0 to 1, and the charge limit with it */
  chargeFactor: number;
  chargeLimitKw: number;
  /** per phase: share of the inverters in service, and the limits of those */
  inServiceFrac: number[];
  inverterLimitKw: number[];
  chargerLimitKw: number[];
  /** heaters, coolers and what the generator set draws; the last of them apart */
  ownUseKw: number;
  generatorOwnKw: number;
  /** per phase: load with what must run, what of it may be shed, what is left of it, and with the own use */
  wholeLoadKw: number[];
  sheddableKw: number[];
  shed: boolean;
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
  const shownKwh = shown(site);
  const chargePart = battery
    ? sum(state.places.map(({ batteryShare, batteryC }) => batteryShare * chargeFactor(battery, batteryC)))
    : 0;
  settleFrost(site);
  const ratingPart = deratingFactor(inverter, state.places[0].airC);
  thermostats(site, shownKwh);
  const generatorOwnKw = generatorOwnUse(site);
  const inServiceFrac = unitsInService(site);
  const must = mustRunKw(site);
  settleShedLatch(site, shownKwh);
  const acArrayKw = inputs.acArrayKw?.[step] ?? 0;
  const idleKw = inverter.idleKw * sum(inServiceFrac);
  const standbyKw = battery?.standbyKw ?? 0;
  const now: Now = {
    shownKwh,
    chargeFactor: chargePart,
    chargeLimitKw: (battery?.maxChargeKw ?? 0) * chargePart,
    inServiceFrac,
    inverterLimitKw: inServiceFrac.map((part) => inverter.ratedKw * ratingPart * part),
    chargerLimitKw: inServiceFrac.map((part) => inverter.chargerKw * ratingPart * part),
    ownUseKw: sum(state.places.map(({ heaterKw, coolerKw }) => heaterKw + coolerKw)) + generatorOwnKw,
    generatorOwnKw,
    wholeLoadKw: inputs.loadKw.map((series, k) => series[step] + must[k]),
    sheddableKw: phasesOf(site).map((k) => inputs.sheddableKw?.[k]?.[step] ?? 0),
    shed: false,
    loadKw: [],
    wantedKw: [],
    dcArrayKw: inputs.dcArrayKw?.[step] ?? 0,
    acArrayKw,
    acArrayPhaseKw: inServiceFrac.map((part, k) => (part > 0 ? plant.acArrayShare[k] * acArrayKw : 0)),
    idleKw,
    standbyKw,
    baseKw: idleKw + standbyKw,
    maxDischargeKw: battery?.maxDischargeKw ?? 0,
  };
  settleShedding(site, now);
  return now;
}

function shown({ plant, state }: Site): number {
  if (!plant.battery) return 0;
  if (!plant.battery.display) return state.energyKwh;
  return clamp(state.energyKwh + state.meterErrorKwh, 0, plant.battery.capacityKwh);
}

/** Frozen cells stay so until the warmest are `thawMarginC` above the limit. */
function settleFrost(site: Site): void {
  const { battery } = site.plant;
  const { state, watch } = site;
  if (!battery) return;
  const warmestC = Math.max(...placesWithBattery(site).map(({ batteryC }) => batteryC));
  if (watch.exactlyAtMost(warmestC, battery.chargeNoneC)) state.frozen = true;
  else if (!watch.exactlyBelow(warmestC, battery.chargeNoneC + battery.thawMarginC)) state.frozen = false;
}

/** Charger and controller of the generator set, and the block heater of an engine that stands in the cold [kW]. */
function generatorOwnUse({ plant, inputs, state, step, watch }: Site): number {
  const { generator } = plant;
  if (!generator) return 0;
  const { standingKw = 0, blockHeaterKw = 0, blockHeaterBelowC } = generator;
  if (blockHeaterKw === 0 || blockHeaterBelowC === undefined || !inputs.airC || engineRuns(state)) {
    return standingKw;
  }
  return standingKw + (watch.exactlyBelow(inputs.airC[step], blockHeaterBelowC) ? blockHeaterKw : 0);
}

function unitsInService(site: Site): number[] {
  const units = site.plant.inverter.units ?? 1;
  return phasesOf(site).map((k) => {
    const out = site.inputs.unitsOut?.[k]?.[site.step] ?? 0;
    return isBypassed(site) ? 0 : Math.max(0, 1 - out / units);
  });
}

/** Σ inv(P) over all phases [kW]. */
export const allInvertersKw = (site: Site, acKw: readonly number[]): number =>
  sum(acKw.map((kw) => dcForAcKw(site.plant.inverter, kw)));
