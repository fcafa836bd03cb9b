import { chargeFactor } from '../../sim/battery.ts';
import { deratingFactor } from '../../sim/inverter.ts';
import type { Generator, Plant } from '../../sim/plant.ts';
import { type FuelPoint, fuelHull } from './fuel-hull.ts';

/** What a plant can do at its best, as the bound takes it. Powers in kW, energies in kWh. */
export interface Limits {
  chargeKw: number;
  dischargeKw: number;
  capacityKwh: number;
  cutoffKwh: number;
  chargeEff: number;
  dischargeEff: number;
  /** where the taper would stop the charge if it went on for ever; null: no taper */
  taper: { endKwh: number; perH: number } | null;
  /** per phase and with all units in service */
  inverterKw: number;
  chargerKw: number;
  acInputKw: number;
  chargerEff: number;
  lossLinear: number;
  lossQuadraticPerKw: number;
  /** fuel curve and most output by phase, of the first set and of both together */
  first: Engine | null;
  both: Engine | null;
}

export interface Engine {
  hull: FuelPoint[];
  /** its rating by phase: most output with the inverters bypassed, and what their input may cut further */
  phaseKw: number[];
}

/** Limits of a plant; those that move with temperature at their best. RELAXATIONS.md argues each. */
export function limitsOf(plant: Plant): Limits {
  const { battery, inverter, generator, secondGenerator } = plant;
  const derating = plant.cabinet ? 1 : deratingAt(plant, plant.roomC);
  const overload = inverter.overload?.frac ?? 1;
  const chargeKw = battery ? battery.maxChargeKw * bestChargeFactor(plant) : 0;
  const engines = generator && secondGenerator ? [generator, secondGenerator.generator] : null;
  return {
    chargeKw,
    // standby is drawn from a battery that is cut off too, beside its limit
    dischargeKw: battery ? Math.max(battery.maxDischargeKw, battery.standbyKw) : 0,
    capacityKwh: battery?.capacityKwh ?? 0,
    cutoffKwh: battery ? battery.cutoffSoc * battery.capacityKwh : 0,
    chargeEff: battery?.chargeEff ?? 1,
    dischargeEff: battery?.dischargeEff ?? 1,
    taper: taperOf(plant, chargeKw),
    inverterKw: inverter.ratedKw * derating * overload,
    chargerKw: inverter.chargerKw * derating,
    acInputKw: inverter.acInputLimitKw,
    chargerEff: inverter.chargerEff,
    lossLinear: inverter.lossLinear,
    lossQuadraticPerKw: inverter.lossQuadraticPerKw,
    first: generator && engineOf([generator], plant),
    both: engines && engineOf(engines, plant),
  };
}

function engineOf(generators: readonly Generator[], { phases }: Plant): Engine {
  const phaseKw = Array.from({ length: phases }, (_, k) =>
    Math.max(...generators.map((generator) => phaseRatingKw(generator, phases, k))),
  );
  return { hull: fuelHull(generators), phaseKw };
}

function phaseRatingKw({ ratedKw, phase }: Generator, phases: number, k: number): number {
  if (phase === undefined) return ratedKw / phases;
  return phase === k ? ratedKw : 0;
}

function deratingAt({ inverter }: Plant, airC: number): number {
  const { derateKneeC, derateC, derateFrac } = inverter;
  return deratingFactor(airC, derateKneeC, (1 - derateFrac) / (derateC - derateKneeC));
}

/** Most that the cells accept as a share of their limit: all where a cabinet may be at any temperature. */
function bestChargeFactor({ battery, cabinet, batteryCabinets, roomC }: Plant): number {
  if (!battery || cabinet) return 1;
  const elsewhere = (batteryCabinets ?? []).reduce((sum, { batteryShare }) => sum + batteryShare, 0);
  const { chargeNoneC, chargeFullC, chargeHotFullC, chargeHotNoneC } = battery;
  const inRoom = chargeFactor(roomC, chargeNoneC, chargeFullC, chargeHotFullC, chargeHotNoneC);
  return Math.min(1, (1 - elsewhere) * inRoom + elsewhere);
}

/** Above its start the taper is dE/dt = perH·(endKwh − E), whatever is on offer. */
function taperOf({ battery }: Plant, chargeKw: number): Limits['taper'] {
  if (!battery || battery.taperStartSoc >= 1 || battery.taperEndFrac >= 1 || chargeKw <= 0) return null;
  const { capacityKwh, taperStartSoc, taperEndFrac, chargeEff } = battery;
  const startKwh = taperStartSoc * capacityKwh;
  const slope = (1 - taperEndFrac) / (capacityKwh - startKwh);
  return { endKwh: startKwh + 1 / slope, perH: chargeEff * chargeKw * slope };
}
