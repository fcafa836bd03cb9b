import type {
  Battery,
  BatteryCabinet,
  Cabinet,
  Generator,
  Inverter,
  Plant,
  SecondGenerator,
  Tank,
} from '../sim/plant.ts';
import { siteRatingFrac } from '../sim/site-rating.ts';
import { inverterLosses, phaseRatedKw } from './inverter-losses.ts';
import { leadAcidWells } from './lead-acid.ts';
import { shiftableParts } from './shiftable-parts.ts';
import type { Site } from './site-schema.ts';

/** kJ to kWh */
const KWH_PER_KJ = 1 / 3600;

/**
 * The plant of a site, in the engine's units.
 * @param airAtStartC both nodes of a cabinet start at this temperature [°C]
 * @param acArrayShare share of each phase in the AC-coupled array, together 1
 */
export function plantFromSite(site: Site, airAtStartC: number, acArrayShare: readonly number[]): Plant {
  const { phases } = site.inverter;
  return {
    phases,
    battery: site.battery && batteryFrom(site.battery),
    inverter: inverterFrom(site.inverter, site.battery?.busV ?? 0),
    acArrayShare: [...acArrayShare],
    generator: site.generator && generatorFrom(site.generator),
    tank: site.tank && tankFrom(site.tank),
    cabinet: site.cabinet && cabinetFrom(site.cabinet, airAtStartC),
    roomC: site.roomC,
    batteryCabinets: site.battery ? batteryCabinets(site, site.battery.modules, airAtStartC) : [],
    secondGenerator: site.secondGenerator && secondFrom(site.secondGenerator),
    shiftable: shiftableParts(site).map(({ phase, kw, kwhPerDay }) => ({ phase, kw, kwhPerDay })),
  };
}

function batteryFrom(battery: NonNullable<Site['battery']>): Battery {
  const { moduleKwh, kinetic } = leadAcidWells(battery);
  return {
    capacityKwh: battery.modules * moduleKwh,
    initialSoc: battery.initialSoc,
    cutoffSoc: battery.cutoffSoc,
    reconnectSoc: battery.reconnectSoc,
    deadSoc: battery.deadSoc,
    maxChargeKw: battery.modules * battery.moduleChargeKw,
    maxDischargeKw: battery.modules * battery.moduleDischargeKw,
    taperStartSoc: battery.taperStartSoc,
    taperEndFrac: battery.taperEnd,
    chargeEff: battery.chargeEfficiency,
    dischargeEff: battery.dischargeEfficiency,
    standbyKw: battery.standbyW / 1000,
    chargeNoneC: battery.noChargeC,
    chargeFullC: battery.fullChargeC,
    chargeHotFullC: battery.hotFullC,
    chargeHotNoneC: battery.hotNoneC,
    thawMarginC: battery.thawMarginK,
    kinetic,
    display: battery.display && {
      driftPerH: battery.display.driftPerDay / 24,
      mostFrac: battery.display.most,
      resetSoc: battery.display.resetSoc,
    },
  };
}

/**
 * The units of a phase as one. A charging current is a power at the bus, which takes more from the AC side by the
 * charger's losses.
 */
function inverterFrom(inverter: Site['inverter'], busV: number): Inverter {
  const units = inverter.unitsPerPhase;
  const chargerKw =
    inverter.chargerKw ?? ((inverter.chargerA ?? 0) * busV) / 1000 / inverter.chargerEfficiency;
  return {
    ratedKw: phaseRatedKw(inverter),
    ...inverterLosses(inverter),
    chargerKw: chargerKw * units,
    chargerEff: inverter.chargerEfficiency,
    acInputLimitKw: ((inverter.acInputA * inverter.phaseV * inverter.powerFactor) / 1000) * units,
    derateKneeC: inverter.derateKneeC,
    derateC: inverter.derateC,
    derateFrac: inverter.derateTo,
    units,
    overload: inverter.overload && {
      frac: inverter.overload.to,
      hours: inverter.overload.minutes / 60,
      recoveryH: inverter.overload.recoveryMin / 60,
    },
  };
}

type GeneratingSet = NonNullable<Site['secondGenerator']>;

function generatorFrom(generator: NonNullable<Site['generator']>): Generator {
  const { startFailures, blockHeater } = generator;
  return {
    ...setFrom(generator),
    retries: startFailures?.retries ?? 0,
    retryH: (startFailures?.pauseS ?? 0) / 3600,
    mustBleed: generator.mustBleed,
    standingKw: generator.standingW / 1000,
    blockHeaterKw: (blockHeater?.ratedW ?? 0) / 1000,
    blockHeaterBelowC: blockHeater?.belowC ?? 0,
  };
}

function secondFrom(second: GeneratingSet): SecondGenerator {
  return { generator: setFrom(second), connectH: second.connectH };
}

/** What both generating sets have. */
function setFrom(set: Omit<GeneratingSet, 'connectH'>): Generator {
  return {
    ratedKw: set.ratedKw * siteRating(set.siteDerating),
    ...(set.phase === null ? {} : { phase: set.phase - 1 }),
    fuelKw: set.fuel.map((point) => point.kW),
    fuelLPerH: set.fuel.map((point) => point.lPerH),
    startDelayH: set.startDelayS / 3600,
    warmUpH: set.warmUpMin / 60,
    coolDownH: set.coolDownMin / 60,
    minLoadFrac: set.minLoad,
    blackStart: set.blackStart,
  };
}

/** Share of its rating that a generator gives at its site; all of it where the rating is already that on site. */
export function siteRating(air: NonNullable<Site['generator']>['siteDerating']): number {
  if (air === null) return 1;
  return siteRatingFrac({ ...air, kind: air.engine, mechanicalEff: air.mechanicalEfficiency });
}

function tankFrom(tank: NonNullable<Site['tank']>): Tank {
  return {
    capacityL: tank.capacityL,
    initialL: tank.initialL,
    reserveL: tank.reserveL,
    orderAtL: tank.orderAtL ?? -1,
    leadH: tank.leadDays * 24,
  };
}

/** Further cabinets, each with the share of the bank that stands in it. */
function batteryCabinets(site: Site, modules: number, airAtStartC: number): BatteryCabinet[] {
  return site.batteryCabinets.map((each) => ({
    cabinet: cabinetFrom(each, airAtStartC),
    batteryShare: each.modules / modules,
  }));
}

function cabinetFrom(cabinet: NonNullable<Site['cabinet']>, airAtStartC: number): Cabinet {
  const { heater, cooler } = cabinet;
  return {
    airKwhPerK: cabinet.airKjPerK * KWH_PER_KJ,
    batteryKwhPerK: cabinet.batteryKjPerK * KWH_PER_KJ,
    airToOutsideKwPerK: cabinet.airToOutsideWPerK / 1000,
    airToBatteryKwPerK: cabinet.airToBatteryWPerK / 1000,
    batteryToOutsideKwPerK: cabinet.batteryToOutsideWPerK / 1000,
    sunApertureM2: cabinet.sunM2,
    initialC: airAtStartC,
    coolerKw: (cooler?.ratedW ?? 0) / 1000,
    coolerCop: cooler?.cop ?? 1,
    coolerOnC: cooler?.onC ?? 99,
    coolerOffC: cooler?.offC ?? 98,
    heaterKw: (heater?.ratedW ?? 0) / 1000,
    heaterOnC: heater?.onC ?? -98,
    heaterOffC: heater?.offC ?? -97,
    heaterMinSoc: heater?.minSoc ?? 0,
  };
}
