import type { SiteChanges } from '../apply-changes.ts';
import type { Site } from '../site-schema.ts';
import type { Cause, Estimate, Estimated } from './visit.ts';

/** An estimate that has a value. */
export type Known = Extract<Estimate, { value: number }>;

/** Kinds of causes that are values of the site file. */
export type Calibrated = Extract<
  Cause['kind'],
  'battery' | 'standby' | 'thresholds' | 'charging' | 'cabinet' | 'engine'
>;

/** In the order in which they are put in. */
const CALIBRATED: readonly Calibrated[] = [
  'battery',
  'standby',
  'thresholds',
  'charging',
  'cabinet',
  'engine',
];

const KIND_OF: Partial<Record<Estimated, Calibrated>> = {
  usableKwh: 'battery',
  oneWayEfficiency: 'battery',
  standbyKw: 'standby',
  startSoc: 'thresholds',
  stopSoc: 'thresholds',
  chargeKw: 'charging',
  coolingWPerK: 'cabinet',
  timeConstantH: 'cabinet',
  fuelAtRest: 'engine',
  fuelPerKwh: 'engine',
};

/** What an estimate is a cause of; undefined: nothing in the site file by itself. */
export function kindOf(key: Estimated): Calibrated | undefined {
  return KIND_OF[key];
}

/** A value of its own is put into a site: only where the designed one lies outside its interval. */
export function isOff({ designed, low, high }: Known): boolean {
  return designed !== null && (designed < low || designed > high);
}

/** Those that hold at a moment, one of each key: the one that begins last. */
export function holdingAt(estimates: readonly Estimate[], atS: number): Known[] {
  const holding = new Map<Estimated, Known>();
  for (const one of estimates) {
    if (one.value === null || atS < one.fromS || atS >= one.toS) continue;
    const before = holding.get(one.key);
    if (!before || before.fromS <= one.fromS) holding.set(one.key, one);
  }
  return [...holding.values()];
}

/**
 * Changes of a site that put estimates in, by what they are a cause of. Estimates are taken as they are: which of them
 * differ enough is for the caller to say.
 * @param filed the site as filed, of which the estimates are
 * @param site  what they are put into: the site as filed, or one that an alternative has extended. Old parts are as
 *   estimated, new ones as named; what an alternative sets anew stays as it sets it
 */
export function calibration(
  estimates: readonly Known[],
  filed: Site,
  site: Site,
): Partial<Record<Calibrated, SiteChanges>> {
  const changes: Partial<Record<Calibrated, SiteChanges>> = {};
  for (const kind of CALIBRATED) {
    const ofKind = estimates.filter(({ key }) => kindOf(key) === kind);
    const made =
      ofKind.length > 0 ? PUT_IN[kind](new Map(ofKind.map((one) => [one.key, one])), filed, site) : {};
    if (Object.keys(made).length > 0) changes[kind] = made;
  }
  return changes;
}

type PutIn = (by: ReadonlyMap<Estimated, Known>, filed: Site, site: Site) => SiteChanges;

const PUT_IN: Record<Calibrated, PutIn> = {
  battery: batteryChanges,
  standby: standbyChanges,
  thresholds: thresholdChanges,
  charging: chargingChanges,
  cabinet: cabinetChanges,
  engine: engineChanges,
};

/**
 * The old modules hold what was estimated, further ones what is named: side by side they are taken as modules of the
 * mean. A battery of other modules is a new one.
 */
function batteryChanges(by: ReadonlyMap<Estimated, Known>, filed: Site, site: Site): SiteChanges {
  const [old, now] = [filed.battery, site.battery];
  if (!old || !now || old.moduleKwh !== now.moduleKwh || old.leadAcid?.atHand !== now.leadAcid?.atHand)
    return {};
  const oldShare = Math.min(1, old.modules / now.modules);
  const changes: SiteChanges = {};
  const usable = by.get('usableKwh');
  if (usable?.designed) {
    const times = oldShare * (usable.value / usable.designed) + (1 - oldShare);
    changes['battery.moduleKwh'] = now.moduleKwh * times;
  }
  const efficiency = by.get('oneWayEfficiency');
  if (efficiency?.designed) {
    const times = oldShare * (efficiency.value / efficiency.designed) + (1 - oldShare);
    const bounded = (value: number) => Math.min(1, Math.max(0.5, value * times));
    changes['battery.chargeEfficiency'] = bounded(now.chargeEfficiency);
    changes['battery.dischargeEfficiency'] = bounded(now.dischargeEfficiency);
  }
  return changes;
}

/** What is drawn more or less is put to the battery's own draw, and beyond that to the inverters' idle draw. */
function standbyChanges(
  by: ReadonlyMap<Estimated, Known>,
  _: Site,
  { battery, inverter }: Site,
): SiteChanges {
  const standby = by.get('standbyKw');
  if (standby?.designed == null || !battery) return {};
  const wantedW = battery.standbyW + 1000 * (standby.value - standby.designed);
  const changes: SiteChanges = { 'battery.standbyW': Math.max(0, wantedW) };
  if (wantedW < 0 && inverter.efficiency.length === 0) {
    const eachW = -wantedW / inverter.phases / inverter.unitsPerPhase;
    changes['inverter.idleW'] = Math.max(0, inverter.idleW - eachW);
  }
  return changes;
}

/** Controllers are set in whole percent (common practice). What an alternative sets is what it is about. */
function thresholdChanges(by: ReadonlyMap<Estimated, Known>, filed: Site, { control }: Site): SiteChanges {
  const [old, now] = [filed.control.charge, control.charge];
  if (!old || !now) return {};
  const changes: SiteChanges = {};
  for (const key of ['startSoc', 'stopSoc'] as const) {
    const one = by.get(key);
    if (one && old[key] === now[key])
      changes[`control.charge.${key}`] = Math.min(1, Math.max(0, Math.round(100 * one.value) / 100));
  }
  return changes;
}

/** Other chargers than those that were logged charge as named. */
function chargingChanges(by: ReadonlyMap<Estimated, Known>, filed: Site, { inverter }: Site): SiteChanges {
  const charge = by.get('chargeKw');
  const { chargerKw, chargerA, phases, unitsPerPhase } = inverter;
  const same =
    chargerKw === filed.inverter.chargerKw &&
    chargerA === filed.inverter.chargerA &&
    unitsPerPhase === filed.inverter.unitsPerPhase;
  if (!charge || !same) return {};
  if (chargerKw !== undefined) return { 'inverter.chargerKw': charge.value / phases / unitsPerPhase };
  if (chargerA === undefined || !charge.designed) return {};
  return { 'inverter.chargerA': chargerA * (charge.value / charge.designed) };
}

/**
 * The heat path is put to the one from air to outside, the time constant to the heat that the battery holds. A
 * cabinet without what it lost to a working part is not known to the estimates.
 */
function cabinetChanges(by: ReadonlyMap<Estimated, Known>, _: Site, { cabinet }: Site): SiteChanges {
  if (!cabinet) return {};
  const changes: SiteChanges = {};
  const cooling = by.get('coolingWPerK');
  if (cooling?.designed != null)
    changes['cabinet.airToOutsideWPerK'] = Math.max(
      0,
      cabinet.airToOutsideWPerK + cooling.value - cooling.designed,
    );
  const constant = by.get('timeConstantH');
  if (constant?.designed)
    changes['cabinet.batteryKjPerK'] = Math.max(
      1,
      cabinet.batteryKjPerK * (constant.value / constant.designed),
    );
  return changes;
}

/**
 * The fuel curve with its points moved by what the straight line of the log is off from the one of the file: a curve
 * of several points keeps its bend.
 */
function engineChanges(by: ReadonlyMap<Estimated, Known>, filed: Site, { generator }: Site): SiteChanges {
  if (!generator || JSON.stringify(filed.generator?.fuel) !== JSON.stringify(generator.fuel)) return {};
  const apart = (key: Estimated) => {
    const one = by.get(key);
    return one && one.designed !== null ? one.value - one.designed : 0;
  };
  const [atRest, perKwh] = [apart('fuelAtRest'), apart('fuelPerKwh')];
  const moved = generator.fuel.map(({ kW, lPerH }) => ({
    kW,
    lPerH: Math.max(0, lPerH + atRest + perKwh * kW),
  }));
  return { 'generator.fuel': moved };
}

/** Arrays of a site with the old ones giving their share of the named, and what was added all of it. */
export function arrayChanges(factor: number, filed: Site, site: Site): SiteChanges {
  return Object.fromEntries(
    site.arrays.flatMap(({ name, kWp }, i) => {
      const oldKwp = Math.min(kWp, filed.arrays.find((array) => array.name === name)?.kWp ?? 0);
      return oldKwp > 0 ? [[`arrays.${i}.kWp`, oldKwp * factor + (kWp - oldKwp)]] : [];
    }),
  );
}
