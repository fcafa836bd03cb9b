import type { Controls } from '../sim/controls.ts';
import type { Battery, Cabinet, Generator, Inverter, Plant, Tank } from '../sim/plant.ts';
import { siteRatingFrac } from '../sim/site-rating.ts';
import { inverterLosses, phaseRatedKw } from './inverter-losses.ts';
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
  };
}

function batteryFrom(battery: NonNullable<Site['battery']>): Battery {
  return {
    capacityKwh: battery.modules * battery.moduleKwh,
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
  };
}

function generatorFrom(generator: NonNullable<Site['generator']>): Generator {
  return {
    ratedKw: generator.ratedKw * siteRating(generator.siteDerating),
    fuelKw: generator.fuel.map((point) => point.kW),
    fuelLPerH: generator.fuel.map((point) => point.lPerH),
    startDelayH: generator.startDelayS / 3600,
    warmUpH: generator.warmUpMin / 60,
    coolDownH: generator.coolDownMin / 60,
    minLoadFrac: generator.minLoad,
    blackStart: generator.blackStart,
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

/** The controls of a site, in the engine's units. The urgent state of charge is the cut-off where none is given. */
export function controlsFromSite(site: Site): Controls {
  const { control, battery } = site;
  const { charge, peak } = control;
  return {
    shortfall: control.shortfall,
    tripAllPhases: control.tripAllPhases,
    restartDelayH: control.restartMin / 60,
    deadVisitH: control.deadVisitH,
    charge: charge && {
      startSoc: charge.startSoc,
      delayH: charge.delayMin / 60,
      stopSoc: charge.stopSoc,
      tailKw: charge.tailKw,
      tailH: charge.tailMin / 60,
      absorptionMaxH: charge.absorptionMaxMin / 60,
    },
    peak: peak && {
      startKw: peak.startKw ?? Number.POSITIVE_INFINITY,
      delayH: peak.delayS / 3600,
      stopKw: peak.stopKw,
      holdH: peak.holdMin / 60,
      charges: peak.charges,
    },
    continuous: control.continuous,
    minRunH: control.minRunMin / 60,
    maxRunH: longestRunH(control),
    leastRestH: control.restMin / 60,
    restrictedEndsRun: control.restrictedEndsRun,
    urgentSoc: control.urgentSoc ?? battery?.cutoffSoc ?? 0,
    peakAssist: control.peakAssist,
    acArrayOnLoad: control.acArrayOnLoad,
    acReconnectH: control.acReconnectMin / 60,
    dcToAcOnLoad: control.dcToAcOnLoad,
  };
}

/** The longest run where none is given: a day, but for a generator that runs always. */
export function longestRunH(control: Site['control']): number {
  return control.maxRunH ?? (control.continuous ? Number.POSITIVE_INFINITY : 24);
}
