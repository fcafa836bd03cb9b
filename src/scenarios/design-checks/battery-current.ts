import { type CheckedRun, COMMON_PRACTICE, type DesignCheck, judged, notKnown, type Rule } from './check.ts';
import { alwaysKw, dcOf, shown, surgeTimesOf } from './measures.ts';

/** What the inverters can draw from the battery against what it may give, for long and for seconds. */
export function batteryCurrentChecks(run: CheckedRun): DesignCheck[] {
  const { plant, site } = run;
  if (plant.battery === null || site.battery === null) return [];
  return [lasting(run, plant.battery.maxDischargeKw, site.battery.busV), surge(run, site.battery)];
}

/** All inverters at once, at their rating or at a multiple of it [A]. */
function inverterA(run: CheckedRun, times: number, busV: number): number {
  const { inverter, phases } = run.plant;
  return ((phases * dcOf(run, times * inverter.ratedKw) + alwaysKw(run.plant)) * 1000) / busV;
}

function lasting(run: CheckedRun, dischargeKw: number, busV: number): DesignCheck {
  return judged(
    {
      key: 'battery.current',
      title: 'Battery current with the inverters at their rating',
      rule: 'The battery gives what the inverters draw at full load; else it limits them, and peaks start the generator or trip.',
      bound: 'most',
      unit: 'A',
      source: COMMON_PRACTICE,
    },
    inverterA(run, 1, busV),
    { fine: (dischargeKw * 1000) / busV },
    `At ${shown(busV)} V, with losses.`,
  );
}

function surge(run: CheckedRun, battery: NonNullable<CheckedRun['site']['battery']>): DesignCheck {
  const rule: Rule = {
    key: 'battery.surge',
    title: 'Battery current in an inverter overload',
    rule: 'The battery gives, for seconds, what the inverters draw in a short overload; else its protection opens as a motor starts.',
    bound: 'most',
    unit: 'A',
    source: `${COMMON_PRACTICE}; both figures from the data sheets`,
  };
  const surgeTimes = surgeTimesOf(run.site);
  const { busV, modules, modulePeakKw } = battery;
  const lastingA = (modules * battery.moduleDischargeKw * 1000) / busV;
  if (surgeTimes === undefined) return notKnown(rule, ['inverter.surgeTimes'], { limit: lastingA });
  const amps = inverterA(run, surgeTimes, busV);
  if (modulePeakKw === undefined && amps > lastingA)
    return notKnown(rule, ['battery.modulePeakKw'], {
      value: amps,
      limit: lastingA,
      note: 'More than the battery gives for long; for seconds it may give more.',
    });
  const limit = (modules * (modulePeakKw ?? battery.moduleDischargeKw) * 1000) / busV;
  return judged(
    rule,
    amps,
    { fine: limit, acceptable: limit },
    `All inverters at ${shown(surgeTimes)} times their rating, at ${shown(busV)} V.`,
  );
}
