import { chargedKwh, cutoffKwh, deadKwh, powerAboveKw } from './battery.ts';
import { shareOf } from './inverter.ts';
import type { Now } from './now.ts';
import type { Site } from './site.ts';
import { mostIntoWellKw, mostOutOfWellKw } from './well.ts';

export type Mode = 'generator' | 'inverters' | 'off' | 'dead';

/** Mean powers of one segment [kW]. */
export interface Flow {
  mode: Mode;
  hours: number;
  /** per phase: what of the wanted power is above a limit; what is carried through the inverters before `share` */
  overLimitKw: number[];
  carriedKw: number[];
  /** per phase: part of the wanted power that is served */
  servedFrac: number[];
  share: number;
  shortage: 'none' | 'power' | 'energy';
  generatorKw: number;
  dcUsedKw: number;
  acUsedKw: number;
  chargeKw: number;
  dischargeKw: number;
  /** stored energy at the end [kWh] */
  energyKwh: number;
  standbyKw: number;
  idleKw: number;
  inverterLossKw: number;
  chargerLossKw: number;
  frostKw: number;
  deratedKw: number;
  /** of each shiftable load, what runs on surplus */
  shiftedKw: number[];
  /** generator mode: charging power held down by the battery, in the sense of the tail rule */
  tailing: boolean;
}

export function noFlow(site: Site, mode: Mode, hours: number): Flow {
  const { phases } = site.plant;
  return {
    mode,
    hours,
    overLimitKw: new Array(phases).fill(0),
    carriedKw: new Array(phases).fill(0),
    servedFrac: new Array(phases).fill(0),
    share: 1,
    shortage: 'none',
    generatorKw: 0,
    dcUsedKw: 0,
    acUsedKw: 0,
    chargeKw: 0,
    dischargeKw: 0,
    energyKwh: site.state.energyKwh,
    standbyKw: 0,
    idleKw: 0,
    inverterLossKw: 0,
    chargerLossKw: 0,
    frostKw: 0,
    deratedKw: 0,
    shiftedKw: [],
    tailing: false,
  };
}

/** Offer `offeredKw` to the battery; returns what it would have taken more of, were it not for its temperature. */
export function charge(site: Site, now: Now, flow: Flow, offeredKw: number): number {
  const { battery } = site.plant;
  if (!battery) return 0;
  const { energyKwh } = site.state;
  const takenKw = Math.min(offeredKw, mostIntoWellKw(site, flow.hours) / battery.chargeEff);
  const added = (limitKw: number) => chargedKwh(battery, energyKwh, limitKw, takenKw, flow.hours);
  const addedKwh = added(now.chargeLimitKw);
  flow.energyKwh = Math.min(battery.capacityKwh, energyKwh + addedKwh);
  if (addedKwh === battery.capacityKwh - energyKwh) flow.energyKwh = battery.capacityKwh;
  flow.chargeKw = addedKwh / (battery.chargeEff * flow.hours);
  if (now.chargeFactor === 1 || offeredKw <= 0) return 0;
  return added(battery.maxChargeKw) / (battery.chargeEff * flow.hours) - flow.chargeKw;
}

/**
 * Base draws and `flow.carriedKw` from `otherKw` (arrays, generator) and the battery, which must give the rest,
 * `deficitKw` > 0. Sets shares, discharge, standby and idle.
 */
export function drawOnBattery(site: Site, now: Now, flow: Flow, otherKw: number, deficitKw: number): void {
  const { plant, state, watch } = site;
  const { battery } = plant;
  const aboveCutoffKw = battery
    ? Math.min(
        powerAboveKw(battery, state.energyKwh, cutoffKwh(battery), flow.hours),
        mostOutOfWellKw(site, flow.hours) * battery.dischargeEff,
      )
    : 0;
  const mostKw = Math.min(now.maxDischargeKw, aboveCutoffKw);
  watch.note(deficitKw, mostKw);
  flow.standbyKw = now.standbyKw;
  flow.idleKw = now.idleKw;
  if (deficitKw <= mostKw + 1e-12) {
    flow.dischargeKw = deficitKw;
  } else {
    flow.shortage = battery && watch.exactlyBelow(aboveCutoffKw, now.maxDischargeKw) ? 'energy' : 'power';
    flow.dischargeKw = mostKw;
    const availableKw = otherKw + mostKw;
    flow.share = shareOf(plant.inverter, availableKw - now.baseKw, flow.carriedKw);
    if (availableKw < now.baseKw) {
      flow.share = 0;
      flow.standbyKw = Math.min(now.standbyKw, availableKw);
      flow.idleKw = Math.max(0, availableKw - now.standbyKw);
      flow.dischargeKw += forcedKw(site, now.standbyKw - flow.standbyKw, flow);
      flow.standbyKw += flow.dischargeKw - mostKw;
    }
  }
  if (battery) flow.energyKwh = state.energyKwh - (flow.dischargeKw * flow.hours) / battery.dischargeEff;
}

/** What the battery gives of `missingKw` of its own standby draw, below the cut-off, after `flow.dischargeKw`. */
export function forcedKw(site: Site, missingKw: number, flow: Flow): number {
  const { battery } = site.plant;
  if (!battery) return 0;
  const leftKwh = site.state.energyKwh - (flow.dischargeKw * flow.hours) / battery.dischargeEff;
  return Math.min(missingKw, powerAboveKw(battery, leftKwh, deadKwh(battery), flow.hours));
}
