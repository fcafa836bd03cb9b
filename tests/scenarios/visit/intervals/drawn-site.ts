import type { SiteChanges } from '../../../../src/scenarios/apply-changes.ts';
import { normal } from '../../../../src/scenarios/normal-draw.ts';
import type { Site } from '../../../../src/scenarios/site-schema.ts';
import type { Estimated } from '../../../../src/scenarios/visit/visit.ts';
import type { Inputs } from '../../../../src/sim/inputs.ts';

export type Draw = () => number;
export type Known = Partial<Record<Estimated, number>>;

export const between = (draw: Draw, low: number, high: number) => low + draw() * (high - low);

/** How the site differs from its file, and what the estimates should say. */
export function drawnSite(site: Site, draw: Draw): { changes: SiteChanges; truth: Known } {
  const { battery, inverter, generator, cabinet, arrays } = site;
  if (!battery || !generator) throw new Error('every site of the plan has both');
  const array = between(draw, 0.75, 1.05);
  const eta = between(draw, 0.93, 0.99);
  const moduleKwh = battery.moduleKwh * between(draw, 0.75, 1.05);
  const standbyW = battery.standbyW * between(draw, 0.5, 2);
  const idleW = inverter.idleW * between(draw, 0.7, 1.5);
  // people set whole per cents; a meter that shows another charge than the controller reads makes them uneven
  const whole = draw() < 0.5;
  const setting = (soc: number) => (whole ? Math.round(100 * soc) / 100 : soc);
  const startSoc = setting(between(draw, 0.22, 0.45));
  const stopSoc = setting(between(draw, 0.65, 0.87));
  const chargerKw = (inverter.chargerKw ?? 0) * between(draw, 0.5, 1);
  const atRest = generator.ratedKw * between(draw, 0.04, 0.12);
  const perKwh = between(draw, 0.22, 0.34);
  const changes: Record<string, unknown> = {
    'battery.chargeEfficiency': eta,
    'battery.dischargeEfficiency': eta,
    'battery.moduleKwh': moduleKwh,
    'battery.standbyW': standbyW,
    'inverter.idleW': idleW,
    'inverter.lossLinear': between(draw, 0.01, 0.04),
    'inverter.lossAtRated': between(draw, 0.02, 0.045),
    'inverter.chargerKw': chargerKw,
    'control.charge.startSoc': startSoc,
    'control.charge.stopSoc': stopSoc,
    'generator.fuel': [
      { kW: 0, lPerH: atRest },
      { kW: generator.ratedKw, lPerH: atRest + perKwh * generator.ratedKw },
    ],
  };
  for (const { name, kWp } of arrays) changes[`arrays.${name}.kWp`] = kWp * array;
  if (draw() < 0.25) changes['battery.display'] = { driftPerDay: between(draw, -0.006, 0.006), most: 0.08 };
  const truth: Known = {
    arrayFactor: array,
    usableKwh: battery.modules * moduleKwh,
    oneWayEfficiency: eta,
    standbyKw: (standbyW + idleW * inverter.phases) / 1000,
    startSoc,
    stopSoc,
    chargeKw: chargerKw * inverter.phases,
    fuelAtRest: atRest,
    fuelPerKwh: perKwh,
  };
  if (cabinet) {
    const airToOutsideWPerK = cabinet.airToOutsideWPerK * between(draw, 0.6, 1.6);
    const batteryToOutsideWPerK = cabinet.batteryToOutsideWPerK * between(draw, 0.6, 1.6);
    changes['cabinet.airToOutsideWPerK'] = airToOutsideWPerK;
    changes['cabinet.batteryToOutsideWPerK'] = batteryToOutsideWPerK;
    truth.coolingWPerK = airToOutsideWPerK;
    const inner = cabinet.airToBatteryWPerK;
    const throughAir = (airToOutsideWPerK * inner) / (airToOutsideWPerK + inner);
    truth.timeConstantH = cabinet.batteryKjPerK / 3.6 / (batteryToOutsideWPerK + throughAir);
  }
  return { changes: changes as SiteChanges, truth };
}

/**
 * A load that differs from the designed one by a factor and, in most cases, from day to day by a tenth, neighbouring
 * days alike. In the others it does not vary at all from 22 to 5 o'clock.
 */
export function variedLoad(inputs: Inputs, factor: number, draw: Draw): Inputs {
  const stepsPerDay = 1440 / inputs.stepMin;
  const days = Math.ceil(inputs.count / stepsPerDay);
  const daily: number[] = [];
  let deviation = normal(draw);
  for (let day = 0; day < days; day++) {
    daily.push(factor * (1 + 0.1 * deviation));
    deviation = 0.4 * deviation + Math.sqrt(1 - 0.4 ** 2) * normal(draw);
  }
  const isFlat = draw() < 0.3;
  const loadKw = inputs.loadKw.map((kw) => {
    const varied = isFlat ? kw.slice() : kw;
    if (isFlat) flattenNights(varied, stepsPerDay);
    return varied.map(
      (value, i) => value * (isFlat && isNight(i, stepsPerDay) ? factor : daily[Math.floor(i / stepsPerDay)]),
    );
  });
  return { ...inputs, loadKw };
}

/** The same load in every night. */
function flattenNights(kw: Float64Array, stepsPerDay: number): void {
  const night = kw.filter((_, i) => isNight(i, stepsPerDay));
  const mean = night.reduce((sum, value) => sum + value, 0) / night.length;
  for (let i = 0; i < kw.length; i++) if (isNight(i, stepsPerDay)) kw[i] = mean;
}

function isNight(step: number, stepsPerDay: number): boolean {
  const hour = (24 * (step % stepsPerDay)) / stepsPerDay;
  return hour < 5 || hour >= 22;
}
