import { lockedRotorKva, runningKva, startKva, voltageDip } from '../../sim/electrical/motor-start.ts';
import { reactiveKvar, vectorSumKva } from '../../sim/electrical/three-phase.ts';
import type { Motor } from '../site-schema.ts';
import { type CheckedRun, COMMON_PRACTICE, type DesignCheck, judged, notKnown, type Rule } from './check.ts';
import { meanLoadKw, ratedKva, sentences, shown, surgeTimesOf } from './measures.ts';

/** Each motor's start, on the inverters and on the generator. */
export function motorChecks(run: CheckedRun): DesignCheck[] {
  const { motors } = run.site;
  const { battery, generator } = run.plant;
  if (motors === null) return battery ? [notKnown(inverterRule('all', 'Motors'), ['motors'])] : [];
  return motors.flatMap((motor) => [
    ...(battery ? [onInverters(run, motor)] : []),
    ...(generator && isOnSet(motor, generator.phase) ? [onGenerator(run, motor)] : []),
  ]);
}

/** A single-phase set carries what hangs on its phase, and no three-phase motor. */
function isOnSet({ phase }: Motor, setPhase: number | undefined): boolean {
  return setPhase === undefined || phase === setPhase + 1;
}

/** Apparent power of a start [kVA], all its phases together. */
function startOf(motor: Motor): number {
  const running = runningKva(motor.ratedKw, motor.efficiency, motor.powerFactor);
  const locked = motor.codeLetter ? lockedRotorKva(motor.ratedKw, motor.codeLetter) : null;
  return startKva(running, locked ?? motor.startMultiple * running, motor.method);
}

function inverterRule(name: string, what: string): Rule {
  return {
    key: `motor.${name}.inverter`,
    title: `${what}: start on the inverters`,
    rule: 'The start, on top of the mean load of its phase, stays within the short overload of the inverter; else it trips.',
    bound: 'most',
    unit: 'kVA',
    source: `${COMMON_PRACTICE}: starting current 6 to 8 times running; vector sum as in IEEE 3006.4 (seen second hand)`,
  };
}

/** The phase that the motor loads most: its own, or the one with the highest mean load. */
function onInverters(run: CheckedRun, motor: Motor): DesignCheck {
  const { phases } = run.plant;
  const { powerFactor } = run.site.inverter;
  const surgeTimes = surgeTimesOf(run.site);
  const rule = inverterRule(motor.name, `Motor ${motor.name}`);
  const means = run.inputs.loadKw.map(meanLoadKw);
  const loadKw = motor.phase === 'all' ? Math.max(...means) : means[motor.phase - 1];
  const perPhase = startOf(motor) / (motor.phase === 'all' ? phases : 1);
  const starting = { kw: perPhase * motor.startPowerFactor, powerFactor: motor.startPowerFactor };
  const kva = vectorSumKva([starting, { kw: loadKw, powerFactor }]);
  const rated = ratedKva(run);
  const note = `${shown(perPhase)} kVA of the start and ${shown(loadKw)} kW of load on a phase, inverters not hot.`;
  if (surgeTimes !== undefined)
    return judged(rule, kva, { fine: surgeTimes * rated, acceptable: surgeTimes * rated }, note);
  if (kva <= rated) return judged(rule, kva, { fine: rated }, note);
  return notKnown(rule, ['inverter.surgeTimes'], {
    value: kva,
    limit: rated,
    note: sentences(note, 'More than the rating; the short overload is not stated.'),
  });
}

/** Most dip of the voltage, in percent, when load comes on: ISO 8528-5. */
const MOST_DIP = { G1: 25, G2: 20, G3: 15 };

function onGenerator(run: CheckedRun, motor: Motor): DesignCheck {
  const { generator } = run.site;
  const { performanceClass = 'G2', powerFactor = 0.8, transientReactance } = generator ?? {};
  const rule: Rule = {
    key: `motor.${motor.name}.generator`,
    title: `Motor ${motor.name}: voltage dip of the generator`,
    rule: 'Started on the generator, the motor pulls its voltage down by no more than its performance class allows.',
    bound: 'most',
    unit: '%',
    source: `ISO 8528-5, load coming on: class G2 seen second hand, G1 and G3 from memory; first-cut dip from the transient reactance: ${COMMON_PRACTICE}`,
  };
  const limit = MOST_DIP[performanceClass];
  // a single-phase motor loads its phase of three as much as one three times as large loads all
  const setPhases = run.plant.generator?.phase === undefined ? run.plant.phases : 1;
  const start = startOf(motor) * (motor.phase === 'all' ? 1 : setPhases);
  const sourceKva = (generator?.ratedKw ?? 0) / powerFactor;
  if (transientReactance === undefined) return notKnown(rule, ['generator.transientReactance'], { limit });
  const dip = 100 * voltageDip(start, sourceKva, transientReactance);
  const kvar = reactiveKvar(motor.startPowerFactor, motor.startPowerFactor);
  return judged(
    rule,
    dip,
    { fine: limit, acceptable: limit },
    `${shown(start)} kVA, ${shown(start * kvar)} kvar of it, on ${shown(sourceKva)} kVA, class ${performanceClass}.`,
  );
}
