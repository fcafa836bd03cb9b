import type { VisitGround } from '../ground.ts';
import type { Fault, FaultKind } from '../visit.ts';
import { coolerOff } from './cooler-off.ts';
import { deadString } from './dead-string.ts';
import type { Detector } from './detector.ts';
import type { Lack } from './fault-terms.ts';
import { fuelLoss } from './fuel-loss.ts';
import { heaterOff } from './heater-off.ts';
import { nightLoad } from './night-load.ts';
import { phaseMissing } from './phase-missing.ts';
import { socDrift } from './soc-drift.ts';
import { socJump } from './soc-jump.ts';
import { weakCharging } from './weak-charging.ts';

const DETECTORS: readonly Detector[] = [
  deadString,
  phaseMissing,
  weakCharging,
  socDrift,
  socJump,
  heaterOff,
  coolerOff,
  nightLoad,
  fuelLoss,
];

/** A fault that was not looked for, and for want of what. */
export interface NotLookedFor {
  kind: FaultKind;
  lacks: Lack[];
}

/**
 * What may be wrong with a site by its log, in the order of FAULTS; how large each must be is in FAULT_TERMS.
 * Errors: none; what the log cannot tell is left out, see faultsNotLookedFor.
 */
export function findFaults(ground: VisitGround): Fault[] {
  return lookForFaults(ground).faults;
}

/** Faults that could not be looked for, for want of columns, of parts of the site, or of enough to go by. */
export function faultsNotLookedFor(ground: VisitGround): NotLookedFor[] {
  return lookForFaults(ground).notLookedFor;
}

/** Both at once. */
export function lookForFaults(ground: VisitGround): { faults: Fault[]; notLookedFor: NotLookedFor[] } {
  const faults: Fault[] = [];
  const notLookedFor: NotLookedFor[] = [];
  for (const { kind, lacks, find } of DETECTORS) {
    const missing = lacks(ground);
    const found = missing.length > 0 ? null : find(ground);
    if (found === null) notLookedFor.push({ kind, lacks: missing });
    else if (typeof found === 'string') notLookedFor.push({ kind, lacks: [found] });
    else faults.push(...found);
  }
  return { faults, notLookedFor };
}
