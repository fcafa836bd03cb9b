import type { Fault, FaultKind } from '../../scenarios/visit/visit.ts';

/** Titles only, until the words of faults are written where faults are found. */
const TITLES: Record<FaultKind, string> = {
  'dead-string': 'a string of an array gives nothing',
  'phase-missing': 'a phase carries nothing',
  'weak-charging': 'the generator does not reach its charging power',
  'soc-drift': 'the meter of charge drifts',
  'soc-jump': 'the meter of charge jumps',
  'heater-off': 'the heater does not warm the battery',
  'cooler-off': 'the cooler does not cool',
  'night-load': 'a load does not switch off at night',
  'fuel-loss': 'fuel leaves the tank while the engine stands',
};

export function faultTitle(kind: FaultKind): string {
  return TITLES[kind];
}

export function faultEvidence(fault: Fault): string {
  return Object.entries(fault.evidence)
    .map(([key, value]) => `${key} ${value}`)
    .join(', ');
}

export function faultCheck(_kind: FaultKind): string {
  return 'look at it with somebody licensed for the work';
}
