import {
  balancedSourceKw,
  greatestDeviation,
  lineCurrentA,
  neutralA,
} from '../../sim/electrical/three-phase.ts';
import { type CheckedRun, COMMON_PRACTICE, type DesignCheck, judged } from './check.ts';
import { highLoadKw, keptFor, meanLoadKw, ratedKva, shown } from './measures.ts';

/** How the load lies on the phases, and what that asks of inverters, neutral and generator. */
export function phaseChecks(run: CheckedRun): DesignCheck[] {
  const { loadKw } = run.inputs;
  const high = loadKw.map(highLoadKw);
  const checks = [peak(run, high)];
  if (loadKw.length === 3) checks.push(balance(loadKw), neutral(run), ...onGenerator(run, high));
  return checks;
}

function peak(run: CheckedRun, high: readonly number[]): DesignCheck {
  const highest = Math.max(...high);
  return judged(
    {
      key: 'phases.peak',
      title: 'Load of the highest phase, 99 % of the time',
      rule: 'The load that a phase exceeds in 1 % of the time stays within the inverter of that phase.',
      bound: 'most',
      unit: 'kW',
      source: COMMON_PRACTICE,
    },
    highest,
    { fine: run.plant.inverter.ratedKw },
    high.length === 1 ? '' : `By phase: ${high.map(shown).join(', ')} kW.`,
  );
}

/** Percent of the mean that the most unequal phase may be off; at 100 one phase carries two thirds. */
const MOST_OFF = 25;
const TOO_FAR_OFF = 100;

function balance(loadKw: readonly Float64Array[]): DesignCheck {
  const means = loadKw.map(meanLoadKw);
  const total = means.reduce((sum, mean) => sum + mean, 0);
  const off = total > 0 ? 100 * greatestDeviation(means) : 0;
  const parts = means.map((mean) => (total > 0 ? Math.round((100 * mean) / total) : 0));
  return judged(
    {
      key: 'phases.balance',
      title: 'Balance of the phases over the whole run',
      rule: 'No phase’s energy is further than a quarter from the mean of the three; else one trips while two are idle.',
      bound: 'most',
      unit: '%',
      source: `${COMMON_PRACTICE}; greatest deviation over the mean, the form of NEMA MG 1 (from memory)`,
    },
    off,
    { fine: MOST_OFF, acceptable: TOO_FAR_OFF },
    `Shares of the energy: ${parts.join(', ')} %.`,
  );
}

/** The neutral's load if loads were currents [kW]: the highest of all steps. */
const worstNeutralKw = keptFor(([a, b, c]: readonly Float64Array[]) => {
  let worst = 0;
  for (let i = 0; i < a.length; i++) worst = Math.max(worst, neutralA(a[i], b[i], c[i]));
  return worst;
});

/** Loads with the same power factor; harmonics, which add up in the neutral, are not known. */
function neutral(run: CheckedRun): DesignCheck {
  const { inverter } = run.site;
  const worstKw = worstNeutralKw(run.inputs.loadKw);
  const amps = lineCurrentA(worstKw / inverter.powerFactor, inverter.phaseV, 1);
  const rated = lineCurrentA(ratedKva(run), inverter.phaseV, 1);
  return judged(
    {
      key: 'phases.neutral',
      title: 'Worst current in the neutral',
      rule: 'The neutral, as thick as a phase conductor, carries no more than one phase’s inverter gives.',
      bound: 'most',
      unit: 'A',
      source: `Sum of three currents 120° apart, without harmonics; limit: ${COMMON_PRACTICE}`,
    },
    amps,
    { fine: rated },
    'Mean over a step; shorter peaks and harmonics come on top.',
  );
}

function onGenerator({ plant }: CheckedRun, high: readonly number[]): DesignCheck[] {
  if (plant.generator === null) return [];
  const { ratedKw, phase } = plant.generator;
  const isSingle = phase !== undefined;
  return [
    judged(
      {
        key: 'phases.generator',
        title: isSingle ? 'Generator against the load of its phase' : 'Generator against the highest phase',
        rule: isSingle
          ? 'The load of its phase, 99 % of the time, stays within the generator.'
          : 'Three times the highest phase’s load, 99 % of the time, stays within the generator: each phase of it gives a third.',
        bound: 'most',
        unit: 'kW',
        source: `${COMMON_PRACTICE}; what the battery helps with is left out`,
      },
      isSingle ? high[phase] : balancedSourceKw(high),
      { fine: ratedKw },
      `By phase: ${high.map(shown).join(', ')} kW.`,
    ),
  ];
}
