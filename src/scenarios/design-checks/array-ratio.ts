import type { ArrayPart } from '../site-schema.ts';
import { type CheckedRun, COMMON_PRACTICE, type DesignCheck, judged, notKnown, type Rule } from './check.ts';
import { ratedKva, shown } from './measures.ts';

/** Arrays against their converters, and AC-coupled arrays against inverters and battery. */
export function arrayChecks(run: CheckedRun): DesignCheck[] {
  return [...run.site.arrays.map((array) => ratio(run, array)), ...acCoupled(run)];
}

/** Percent of the converter's rating: more sun is cut off than is won. */
const MOST_RATIO = 130;
const TOO_MUCH_RATIO = 200;

function ratio(run: CheckedRun, array: ArrayPart): DesignCheck {
  const { name, kWp } = array;
  const rule: Rule = {
    key: `array.${name}.ratio`,
    title: `Array against its converter (DC/AC ratio), ${name} array`,
    rule: 'The array is at most about a third larger than what its controllers or its inverter put out.',
    bound: 'most',
    unit: '%',
    source: `${COMMON_PRACTICE}: 110 to 130 %`,
  };
  const limits = converterKw(run, array);
  if (limits.length === 0) {
    const key = array.coupling === 'ac' ? 'inverterKw' : 'controllerA';
    return notKnown(rule, [`arrays.${name}.${key}`]);
  }
  const converter = Math.min(...limits);
  const note = `${shown(kWp)} kWp on ${shown(converter)} kW.`;
  return judged(rule, (100 * kWp) / converter, { fine: MOST_RATIO, acceptable: TOO_MUCH_RATIO }, note);
}

function converterKw({ site }: CheckedRun, array: ArrayPart): number[] {
  const { coupling, inverterKw, controllerA, controller } = array;
  const output =
    coupling === 'ac' ? inverterKw : controllerA && (controllerA * (site.battery?.busV ?? 0)) / 1000;
  return [output, controller?.ratedKw].filter((kw) => kw !== undefined && kw > 0) as number[];
}

/** What an AC-coupled array can put out [kW]. */
function outputKw({ kWp, inverterKw }: ArrayPart): number {
  return Math.min(inverterKw ?? Number.POSITIVE_INFINITY, kWp);
}

function acCoupled(run: CheckedRun): DesignCheck[] {
  const arrays = run.site.arrays.filter(({ coupling }) => coupling === 'ac');
  const { plant } = run;
  if (arrays.length === 0 || plant.battery === null) return [];
  const phaseKw = Array.from({ length: plant.phases }, (_, k) =>
    arrays.reduce((sum, array) => {
      if (array.phase === 'all') return sum + outputKw(array) / plant.phases;
      return sum + (array.phase === k + 1 ? outputKw(array) : 0);
    }, 0),
  );
  const total = phaseKw.reduce((sum, kw) => sum + kw, 0);
  const { chargerKw, chargerEff } = plant.inverter;
  const taken = Math.min(chargerKw * plant.phases * chargerEff, plant.battery.maxChargeKw);
  return [
    judged(
      {
        key: 'acArray.inverter',
        title: 'AC-coupled array against the inverters',
        rule: 'On no phase does the array’s inverter exceed the inverter that must take its surplus when load drops.',
        bound: 'most',
        unit: 'kW',
        source: `${COMMON_PRACTICE}: array inverters at most as large as the battery inverters`,
      },
      Math.max(...phaseKw),
      { fine: ratedKva(run), acceptable: ratedKva(run) },
      'The phase with most.',
    ),
    judged(
      {
        key: 'acArray.battery',
        title: 'AC-coupled array against charger and battery',
        rule: 'With no load at all, charger and battery take what the AC-coupled array puts out; else it is held back.',
        bound: 'most',
        unit: 'kW',
        source: COMMON_PRACTICE,
      },
      total * chargerEff,
      { fine: taken },
      'On the DC side, warm battery below its taper.',
    ),
  ];
}
