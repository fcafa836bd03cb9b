import {
  CAUSE_BYPASS,
  CAUSE_CHARGE,
  CAUSE_CONTINUOUS,
  CAUSE_EXERCISE,
  CAUSE_FULL,
  CAUSE_HAND,
  CAUSE_PEAK,
  OUTAGE_PERSON_AWAY,
  OUTAGE_START_FAILURE,
} from '../../src/sim/causes.ts';
import type { RandomSystem } from './random-system.ts';
import type { NaiveResult } from './result.ts';
import { sum } from './site.ts';

/** By the name of a rule, whether a run shows it. */
type Shown = Record<string, (result: NaiveResult, system: RandomSystem) => boolean>;

/** What a run shows of each rule of the least plant. */
export const IN_PLAY: Shown = {
  'charge run': ({ totals }) => totals.startsByCause[CAUSE_CHARGE] > 0,
  'peak run': ({ totals }) => totals.startsByCause[CAUSE_PEAK] > 0,
  'continuous run': ({ totals }) => totals.startsByCause[CAUSE_CONTINUOUS] > 0,
  'several runs': ({ runs }) => runs.length > 2,
  'ran dry': ({ runs }) => runs.some(({ ranDry }) => ranDry),
  delivery: ({ totals }) => totals.deliveries > 0,
  'unserved: power': ({ totals }) => totals.unservedByCauseKwh[0] > 0.01,
  'unserved: energy': ({ totals }) => totals.unservedByCauseKwh[1] > 0.01,
  'unserved: trip': ({ totals }) => totals.unservedByCauseKwh[2] > 0.01,
  'unserved: tank dry': ({ totals }) => totals.unservedByCauseKwh[4] > 0.01,
  'hardly any unserved': ({ totals }) => totals.unservedKwh < 0.01 * totals.loadKwh,
  'cut off': ({ totals }) => totals.cutoffH > 0,
  'dead and visited': ({ totals }, { controls }) => totals.deadH > controls.deadVisitH - 1e-6,
  'held back by frost': ({ totals }) => totals.frostKwh > 0.01,
  'derated by heat': ({ totals }) => totals.deratedKwh > 0.01,
  heater: ({ totals }) => totals.heaterKwh > 0.01,
  cooler: ({ totals }) => totals.coolerKwh > 0.01,
  'battery helps the generator': ({ totals }, { controls }) =>
    controls.peakAssist && totals.onLoadH > 0 && totals.dischargeKwh > 0.01,
  'hours at low load': ({ totals }) => totals.lowLoadH > 0,
  'night hours': ({ totals }) => totals.nightH > 0,
  'curtailed array': ({ totals }) => totals.acUsedKwh < totals.acPotentialKwh - 0.01,
};

/** How often a flag is set. */
const flagged = (series: Uint8Array | undefined): number => sum([...(series ?? [])]);

/** What a run shows of each rule that goes beyond the least plant. */
export const FEATURES_IN_PLAY: Shown = {
  'bypass run': ({ totals }) => totals.startsByCause[CAUSE_BYPASS] > 0,
  'run by hand': ({ totals }) => totals.startsByCause[CAUSE_HAND] > 0,
  'full run': ({ totals }) => totals.startsByCause[CAUSE_FULL] > 0,
  'exercise run': ({ totals }) => totals.startsByCause[CAUSE_EXERCISE] > 0,
  'run window': ({ totals }, { controls, inputs }) =>
    controls.continuous && totals.starts > 0 && inputs.runWindow !== undefined,
  'unserved: start failure': ({ totals }) => totals.unservedByCauseKwh[OUTAGE_START_FAILURE] > 0.01,
  'unserved: person away': ({ totals }) => totals.unservedByCauseKwh[OUTAGE_PERSON_AWAY] > 0.01,
  'failed attempts': ({ totals }) => totals.failedAttempts > 0,
  'generator locked out': ({ totals }) => totals.startLockOuts > 0,
  'inverters locked out': ({ totals }) => totals.lockOuts > 0,
  visits: ({ totals }) => totals.visits > 0,
  'bled engine': ({ runs, totals }, { plant }) =>
    plant.generator?.mustBleed === true && runs.some(({ ranDry }) => ranDry) && totals.visits > 0,
  'out of order': ({ totals }, { inputs }) => totals.starts > 0 && flagged(inputs.outOfOrder) > 0,
  'second set': ({ totals }) => totals.secondRunH > 0 && totals.secondFuelL > 0,
  'single-phase set': ({ totals }, { plant }) =>
    plant.phases === 3 && plant.generator?.phase !== undefined && totals.onLoadH > 0,
  'charging aims at a power': ({ totals }, { controls }) =>
    Number.isFinite(controls.chargeTargetKw) && totals.onLoadH > 0,
  'load shed': ({ totals }) => totals.shedKwh > 0.01 && totals.shedH > 0,
  'shifted onto surplus': ({ totals }) => totals.shiftedKwh > 0.01,
  'had to run': ({ totals }) => totals.shiftForcedKwh > 0.01,
  'missed its day': ({ totals }) => totals.shiftMissedKwh > 0.01,
  'short overload': ({ totals }) => totals.overloadKwh > 0.01,
  'units out': ({ totals }, { inputs }) =>
    sum((inputs.unitsOut ?? []).map(flagged)) > 0 && totals.dischargeKwh > 0,
  'own use of the set': ({ totals }) => totals.ownKwh > 0.01,
  'block heater': ({ totals }, { plant, inputs }) =>
    plant.generator !== null &&
    plant.generator.blockHeaterKw! > 0 &&
    totals.ownKwh > 0.01 &&
    inputs.airC!.some((airC) => airC < plant.generator!.blockHeaterBelowC!),
  'drifting meter': ({ totals }, { plant }) => Boolean(plant.battery?.display) && totals.starts > 0,
  'lead-acid': ({ totals }, { plant }) => Boolean(plant.battery?.kinetic) && totals.dischargeKwh > 1,
  'further cabinets': ({ totals }, { plant }) =>
    plant.batteryCabinets!.length > 0 && totals.hottestCellC > totals.coldestCellC,
  'threshold sets': ({ totals }, { inputs }) => flagged(inputs.thresholdSet) > 0 && totals.starts > 0,
};
