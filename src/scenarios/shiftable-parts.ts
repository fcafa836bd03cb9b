import type { Shiftable } from '../sim/plant.ts';
import type { Site } from './site-schema.ts';

/** A shiftable load as the engine takes it, on one phase, and when its day ends. */
export interface ShiftablePart extends Shiftable {
  deadline: string;
}

/** Shiftable loads of a site; one on all three phases is three of a third each. */
export function shiftableParts({
  shiftable,
  inverter,
}: Pick<Site, 'shiftable' | 'inverter'>): ShiftablePart[] {
  return shiftable.flatMap(({ watts, kwhPerDay, deadline, phase }) => {
    const phases = phase === 'all' ? Array.from({ length: inverter.phases }, (_, k) => k) : [phase - 1];
    const share = 1 / phases.length;
    return phases.map((k) => ({
      phase: k,
      kw: (watts / 1000) * share,
      kwhPerDay: kwhPerDay * share,
      deadline,
    }));
  });
}
