import { lineCurrentA } from '../../sim/electrical/three-phase.ts';
import type { Breaker } from '../site-schema.ts';
import { type CheckedRun, COMMON_PRACTICE, type DesignCheck, judged, notKnown, type Rule } from './check.ts';
import { ratedKva, shown } from './measures.ts';

/** Multiples of a breaker's rated current: it may open at once from the first, and does from the second. */
const RELEASES: Record<Breaker['curve'], { may: number; does: number }> = {
  B: { may: 3, does: 5 },
  C: { may: 5, does: 10 },
  D: { may: 10, does: 20 },
};

/** Whether the inverters alone, with the generator stopped, give enough current into a short to open each breaker. */
export function breakerChecks(run: CheckedRun): DesignCheck[] {
  const { breakers, inverter } = run.site;
  if (run.plant.battery === null) return [];
  const lacking = [
    ...(inverter.faultTimes === undefined ? ['inverter.faultTimes'] : []),
    ...(breakers === null ? ['breakers'] : []),
  ];
  if (breakers === null) return [notKnown(ruleOf('all', 'Breakers'), lacking)];
  const rated = lineCurrentA(ratedKva(run), inverter.phaseV, 1);
  return breakers.map((breaker) => {
    const { name, ratedA, curve } = breaker;
    const rule = ruleOf(name, `Breaker ${name}, ${curve} ${shown(ratedA)} A`);
    const { may, does } = RELEASES[curve];
    const limit = does * ratedA;
    if (inverter.faultTimes === undefined) return notKnown(rule, lacking, { limit });
    return judged(
      rule,
      inverter.faultTimes * rated,
      { fine: limit, acceptable: may * ratedA },
      `${shown(inverter.faultTimes)} times the ${shown(rated)} A of one phase; curve ${curve} opens at once from ${does} times its rating, may do so from ${may} times.`,
    );
  });
}

function ruleOf(name: string, what: string): Rule {
  return {
    key: `breaker.${name}`,
    title: `${what}: fault current without the generator`,
    rule: 'What the inverters of one phase put into a short circuit opens the breaker at once.',
    bound: 'least',
    unit: 'A',
    source: `Bands of IEC 60898-1 (from memory), as rule-of-thumb multiples: ${COMMON_PRACTICE}`,
  };
}
