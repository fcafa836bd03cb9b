import { storedAfterCharge } from '../../sim/battery.ts';
import type { Plant } from '../../sim/plant.ts';
import { type CheckedRun, COMMON_PRACTICE, type DesignCheck, judged } from './check.ts';
import { alwaysKw, meanLoadKw, shown } from './measures.ts';

/** Percent of the generator's rating on its site that charging should take. */
const MOST = 80;
const TOO_MUCH = 100;
const LEAST = 40;
const TOO_LITTLE = 20;

type WithBoth = Plant & {
  battery: NonNullable<Plant['battery']>;
  generator: NonNullable<Plant['generator']>;
};

/** The charger against the generator, and how long the generator takes to fill the battery. */
export function chargerChecks(run: CheckedRun): DesignCheck[] {
  const { battery, generator } = run.plant;
  if (battery === null || generator === null) return [];
  const plant = { ...run.plant, battery, generator };
  const rule = run.controls.charge ?? run.controls.hand;
  return [...sizes(run, plant), ...(rule ? [recharge(run, plant, rule)] : [])];
}

/** Phases that the generator feeds: all, or the one of a single-phase set. */
function fedBy({ phases, generator }: WithBoth): number[] {
  return Array.from({ length: phases }, (_, k) => k).filter((k) => (generator.phase ?? k) === k);
}

function sizes({ controls }: CheckedRun, plant: WithBoth): DesignCheck[] {
  const { inverter, battery, generator } = plant;
  const charging = fedBy(plant).length * Math.min(inverter.chargerKw, inverter.acInputLimitKw);
  const target = controls.chargeTargetKw ?? Number.POSITIVE_INFINITY;
  const taken = Math.min(charging, battery.maxChargeKw / inverter.chargerEff, target);
  const rated = generator.ratedKw;
  const base = {
    unit: '%',
    source: COMMON_PRACTICE,
  };
  return [
    judged(
      {
        ...base,
        key: 'charger.most',
        title: 'Charger against generator: not too large',
        rule: 'Charging alone takes at most four fifths of what the generator gives on its site, so that load has room.',
        bound: 'most',
      },
      (100 * taken) / rated,
      { fine: MOST, acceptable: TOO_MUCH },
      `${shown(taken)} kW of charging on ${shown(rated)} kW.`,
    ),
    judged(
      {
        ...base,
        key: 'charger.least',
        title: 'Charger against generator: not too small',
        rule: 'Charging alone loads the generator to two fifths or more, so that it does not idle along.',
        bound: 'least',
      },
      (100 * taken) / rated,
      { fine: LEAST, acceptable: TOO_LITTLE },
      `${shown(taken)} kW of charging on ${shown(rated)} kW.`,
    ),
  ];
}

/** From the start threshold to the stop threshold beside the mean load, warm battery, no sun. */
function recharge(
  run: CheckedRun,
  plant: WithBoth,
  charge: { startSoc: number; stopSoc: number; absorptionMaxH: number },
): DesignCheck {
  const offered = chargingDcKw(run, plant);
  const hours = hoursToCharge(plant.battery, charge, offered);
  const limit = Math.min(run.site.design.rechargeH, run.controls.maxRunH);
  return judged(
    {
      key: 'generator.recharge',
      title: 'Recharge by the generator',
      rule: 'From the start to the stop threshold the generator takes no longer than stated, beside the mean load and without sun.',
      bound: 'most',
      unit: 'h',
      source: `${COMMON_PRACTICE}: a working day, 8 h; the longest run of the site file where it is shorter`,
    },
    hours,
    { fine: limit, acceptable: run.controls.maxRunH },
    `From ${shown(100 * charge.startSoc)} to ${shown(100 * charge.stopSoc)} % with ${shown(Math.min(offered, plant.battery.maxChargeKw))} kW into the battery.`,
  );
}

/** Power that is left for the battery with the generator on load beside the mean load [kW, DC]. */
function chargingDcKw({ inputs, controls }: CheckedRun, plant: WithBoth): number {
  const { inverter, generator } = plant;
  const fed = fedBy(plant);
  const cap = Math.min(generator.ratedKw / fed.length, inverter.acInputLimitKw);
  const loads = fed.map((k) => meanLoadKw(inputs.loadKw[k]));
  const left = loads.reduce((sum, kw) => sum + Math.min(inverter.chargerKw, Math.max(0, cap - kw)), 0);
  const target = controls.chargeTargetKw ?? Number.POSITIVE_INFINITY;
  const aimedAt = Math.max(0, target - loads.reduce((sum, kw) => sum + kw, 0));
  return Math.min(left, aimedAt) * inverter.chargerEff - alwaysKw(plant);
}

/** Longer than any recharge: what never ends is this long. */
const NEVER_H = 1000;

/**
 * Hours from start to stop threshold, with the taper, and at most the longest time above its start.
 * @param offered [kW, DC]
 * @returns [h]; Infinity where the battery never gets there
 */
function hoursToCharge(
  battery: WithBoth['battery'],
  { startSoc, stopSoc, absorptionMaxH }: { startSoc: number; stopSoc: number; absorptionMaxH: number },
  offered: number,
): number {
  const full = battery.capacityKwh;
  const taperE = battery.taperStartSoc * full;
  const slope =
    battery.taperStartSoc < 1 ? (1 - battery.taperEndFrac) / (full - battery.taperStartSoc * full) : 0;
  const stored = (hours: number) =>
    storedAfterCharge(
      startSoc * full,
      offered,
      battery.maxChargeKw,
      hours,
      battery.chargeEff,
      taperE,
      slope,
      full,
    );
  const hoursTo = (wanted: number) => {
    if (stored(NEVER_H) < wanted - 1e-9 * full) return Number.POSITIVE_INFINITY;
    let [low, high] = [0, NEVER_H];
    for (let i = 0; i < 60; i++) {
      const middle = (low + high) / 2;
      if (stored(middle) < wanted - 1e-9 * full) low = middle;
      else high = middle;
    }
    return high;
  };
  const direct = hoursTo(stopSoc * full);
  return stopSoc * full > taperE ? Math.min(direct, hoursTo(taperE) + absorptionMaxH) : direct;
}
