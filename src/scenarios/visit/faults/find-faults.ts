import type { VisitGround } from '../ground.ts';
import type { Fault, FaultKind } from '../visit.ts';
import { coolerOff } from './cooler-off.ts';
import { deadString } from './dead-string.ts';
import type { Detector } from './detector.ts';
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

/** A fault that was not looked for, and for want of what: keys of columns and words, parted by commas. */
export interface NotLookedFor {
  kind: FaultKind;
  lacks: string;
}

/**
 * What may be wrong with a site by its log, in the order of FAULTS; how large each must be is in FAULT_TERMS.
 * Errors: none; what the log cannot tell is left out, see faultsNotLookedFor.
 */
export function findFaults(ground: VisitGround): Fault[] {
  return lookForFaults(ground).faults;
}

/** Faults of parts that the site has, that could not be looked for: for want of columns, or of enough to go by. */
export function faultsNotLookedFor(ground: VisitGround): NotLookedFor[] {
  return lookForFaults(ground).notLookedFor;
}

/** All at once: what was found, what was looked for, and what could not be. */
export function lookForFaults(ground: VisitGround): {
  faults: Fault[];
  lookedFor: FaultKind[];
  notLookedFor: NotLookedFor[];
} {
  const faults: Fault[] = [];
  const lookedFor: FaultKind[] = [];
  const notLookedFor: NotLookedFor[] = [];
  for (const { kind, lacks, find } of DETECTORS) {
    const missing = lacks(ground);
    if (missing.some((lack) => lack.startsWith('part: '))) continue;
    const found = missing.length > 0 ? missing.join(', ') : find(ground);
    if (typeof found === 'string') notLookedFor.push({ kind, lacks: found });
    else {
      lookedFor.push(kind);
      faults.push(...found);
    }
  }
  return { faults, lookedFor, notLookedFor };
}
