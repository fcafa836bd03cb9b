import type { VisitGround } from '../ground.ts';
import type { Fault, FaultKind } from '../visit.ts';
import { FAULT_TERMS, type Lack } from './fault-terms.ts';

/** How one fault is looked for. */
export interface Detector {
  kind: FaultKind;
  /** what is missing to look for it; then it is not looked for */
  lacks: (ground: VisitGround) => Lack[];
  /** those that are there; what it finds too little of is told as a lack */
  find: (ground: VisitGround) => Fault[] | Lack;
}

/** Those conditions that are not met. */
export function unmet(needs: readonly (readonly [met: unknown, lack: Lack])[]): Lack[] {
  return needs.filter(([met]) => !met).map(([, lack]) => lack);
}

/** A fault with the unit of its kind, where it has none of its own. */
export function fault(found: Omit<Fault, 'unit'> & Partial<Pick<Fault, 'unit'>>): Fault {
  return { unit: FAULT_TERMS[found.kind].unit, ...found };
}
