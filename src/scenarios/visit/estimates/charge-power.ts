import { upperMedianOf } from '../../middle-values.ts';
import { chargeShare, POWER_MARGIN, SOC_MARGIN } from '../charging-room.ts';
import type { Estimate } from '../visit.ts';
import { ClusteredRows, clusteredError } from './clustered-fit.ts';
import { type LogView, missing, steadyOwnUse } from './log-view.ts';
import { fitted, refused } from './outcome.ts';
import { type LoggedRun, loggedRuns } from './runs.ts';

const KEY = 'chargeKw';
const LEAST_RUNS = 5;
const LEAST_STEPS = 20;
/** A phase has room for charging when its rating leaves this much more than the charger takes. */
const ROOM = 1.03;
/** An array that gives more than this share of the chargers' power lets them take less. */
const ARRAY_SHARE = 0.02;

/** A step on load in which only the chargers limit charging, by what is known without looking at charging itself. */
interface Step {
  run: number;
  /** generator less load [kW] */
  chargingKw: number;
  /** what its rating leaves on each phase [kW] */
  roomKw: number[];
}

/** What the generator charges with where neither its rating, the battery nor an array limits it. */
export function chargeKw(view: LogView): Estimate {
  const { phaseKw, generatorKw, arrayKw, plant, site } = view;
  const soc = view.column('socFrac');
  const batteryKw = view.column('batteryKw');
  const { battery, generator, inverter, phases } = plant;
  if (battery === null || generator === null)
    return refused(KEY, 'not-told-apart', 'a battery and a generator in the site file');
  const cellC = plant.cabinet ? view.column('cellC') : new Float64Array(view.count).fill(plant.roomC);
  const lacks = missing({ load1Kw: phaseKw, generatorKw, arrayKw, socFrac: soc, batteryKw, cellC });
  if (lacks !== '') return refused(KEY, 'no-column', lacks);
  if (site.control.chargeTargetKw !== null)
    return refused(KEY, 'not-told-apart', 'a charging power that the load does not change');
  const own = steadyOwnUse(view);
  if ('lacks' in own) return refused(KEY, 'no-column', own.lacks);
  const steps = openSteps(view, own.off);
  const found = plateau(steps, phases, inverter.chargerKw);
  const runs = new Set(found.steps.map(({ run }) => run)).size;
  const designed = inverter.chargerKw * (generator.phase === undefined ? phases : 1);
  if (steps.length >= LEAST_STEPS && (runs < LEAST_RUNS || found.steps.length < LEAST_STEPS))
    return refused(
      KEY,
      'not-told-apart',
      'steps in which the rating leaves room for the whole charging power',
    );
  if (runs < LEAST_RUNS)
    return refused(
      KEY,
      'too-little',
      `${runs} runs with charging that nothing else limits, ${LEAST_RUNS} needed`,
    );
  const rows = new ClusteredRows(1);
  for (const step of found.steps) rows.add(step.run, [1], step.chargingKw);
  const fit = rows.fit();
  if (fit === null) throw new Error('a mean of steps has always a fit');
  const error = clusteredError([{ fit, slopes: [1] }]);
  const basis = { count: found.steps.length, of: 'steps' } as const;
  return fitted(KEY, { value: fit.beta[0], error, freedom: runs - 1 }, view, { designed, basis });
}

/** Steps whose rooms hold the charging power that the steps themselves show: found in a few turns. */
function plateau(steps: readonly Step[], phases: number, designedKw: number): { steps: Step[] } {
  let perPhase = designedKw;
  let found: Step[] = [];
  for (let turn = 0; turn < 20; turn++) {
    const roomy = steps.filter(({ roomKw }) => roomKw.every((kw) => kw > ROOM * perPhase));
    // where none has room for so much, the charger may still take less
    const next =
      roomy.length >= LEAST_STEPS ? upperMedianOf(roomy.map((s) => s.chargingKw)) / phases : perPhase * 0.95;
    found = roomy;
    if (roomy.length >= LEAST_STEPS && Math.abs(next - perPhase) < 1e-3 * perPhase) break;
    perPhase = next;
  }
  return { steps: confirmed(found, phases) };
}

/** A level below what the rating leaves is no plateau where charging follows the room. */
function confirmed(steps: Step[], phases: number): Step[] {
  if (steps.length === 0) return [];
  const level = upperMedianOf(steps.map((s) => s.chargingKw));
  const roomy = steps.every(({ roomKw }) =>
    roomKw.every((kw) => kw > (1 + (ROOM - 1) / 2) * (level / phases)),
  );
  return roomy ? steps : [];
}

function openSteps(view: LogView, ownOff: Uint8Array): Step[] {
  const { plant, phases } = { plant: view.plant, phases: view.plant.phases };
  const { inverter, battery, generator } = plant;
  if (battery === null || generator === null || generator.phase !== undefined) return [];
  const [phaseKw, generatorKw, arrayKw] = [view.phaseKw, view.generatorKw, view.arrayKw] as [
    Float64Array[],
    Float64Array,
    Float64Array,
  ];
  const soc = view.column('socFrac') as Float64Array;
  const batteryKw = view.column('batteryKw') as Float64Array;
  const [cellC, airC] = [view.column('cellC'), view.column('cabinetC')];
  const cap = Math.min(generator.ratedKw / phases, inverter.acInputLimitKw);
  const isOpen = (i: number) => {
    if (ownOff[i] === 0 || !(soc[i] < battery.taperStartSoc - SOC_MARGIN)) return false;
    if (!(arrayKw[i] <= ARRAY_SHARE * inverter.chargerKw * phases)) return false;
    if (plant.cabinet && airC && !(airC[i] < inverter.derateKneeC - 1)) return false;
    const takes =
      battery.maxChargeKw * (cellC ? chargeShare(battery, cellC[i]) : chargeShare(battery, plant.roomC));
    return batteryKw[i] < POWER_MARGIN * takes;
  };
  const steps: Step[] = [];
  for (const [run, { first, lastOnLoad }] of loggedRuns(view).entries())
    for (const i of inner(first, lastOnLoad, view)) {
      const loads = phaseKw.map((kw) => kw[i]);
      const chargingKw = generatorKw[i] - loads.reduce((sum, kw) => sum + kw, 0);
      if (!isOpen(i) || !Number.isFinite(chargingKw)) continue;
      // a load that comes and goes within the step leaves less room at times than its mean
      const highest = phaseKw.map((kw) => Math.max(kw[i - 1], kw[i], kw[i + 1]));
      steps.push({ run, chargingKw, roomKw: highest.map((kw) => cap - kw) });
    }
  return steps;
}

/** Steps of a run that are on load from end to end: warm-up and stop lie in the outer ones. */
function inner(first: LoggedRun['first'], last: number, { site, hours }: LogView): number[] {
  const warm = Math.ceil(
    ((site.generator?.warmUpMin ?? 0) / 60 + (site.generator?.startDelayS ?? 0) / 3600) / hours,
  );
  const from = first + Math.max(1, warm) + 1;
  return Array.from({ length: Math.max(0, last - from) }, (_, k) => from + k);
}
