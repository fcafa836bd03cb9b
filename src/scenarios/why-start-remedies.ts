import type { StartCause } from '../sim/causes.ts';
import type { Ledger } from '../sim/ledger.ts';
import type { SiteChanges } from './apply-changes.ts';
import type { Rerunner } from './rerun.ts';
import { movedLoad } from './why-start-block.ts';
import { type Candidate, candidatesFor } from './why-start-candidates.ts';
import {
  type Around,
  aroundStart,
  causeThen,
  leastThatAvoids,
  movedTo,
  type Outcome,
  outcomeOf,
} from './why-start-outcome.ts';
import type { StartState } from './why-start-state.ts';

/** What a change of the site does to one start. */
export interface Remedy {
  kind: Candidate['kind'] | 'block';
  outcome: Outcome;
  /** the value changed: as filed, and the least change that makes the start go; or the furthest one tried */
  from: number;
  to: number;
  /** with one unit less the start stays or only moves [same unit] */
  unit: number;
  /** the same change for an alternative of the site file; empty where only one day's load was moved */
  changes: SiteChanges;
  /** where the start is then, where it only moved [h] */
  movedToH: number | null;
  /** by which cause it starts then, where it stays */
  causeThen: StartCause | null;
  /** the whole period with it; null where only one day's load was moved */
  whole: { starts: number; fuelL: number; unservedKwh: number } | null;
  /** the load moved, for `block` */
  block: Block | null;
}

/** Load taken from one stretch of a day and put into another: steps, end not included. */
export interface Block {
  fromStep: number;
  toStep: number;
  intoStep: number;
  kwh: number;
  /** phases it is taken from (0, 1, 2) */
  phases: readonly number[];
}

/** What would have avoided a start, each kind of change that suits its cause by itself. */
export function remediesOf(rerunner: Rerunner, run: number, state: StartState): Remedy[] {
  const { ledger, inputs } = rerunner.result;
  const around = aroundStart(ledger.runs, run, (inputs.count * inputs.stepMin) / 60);
  const { cause } = ledger.runs[run];
  return [
    ...candidatesFor(rerunner.site, rerunner.result, cause, state).map((candidate) =>
      remedyBy(candidate, rerunner, around),
    ),
    ...movedLoad(rerunner, ledger.runs[run], state, around),
  ];
}

function remedyBy(candidate: Candidate, rerunner: Rerunner, around: Around): Remedy {
  const { runs } = rerunner.result.ledger;
  const with_ = (amount: number): Ledger => rerunner.changed(candidate.changes(amount));
  const { amount, outcome } = leastThatAvoids(candidate.most, (n) => outcomeOf(around, runs, with_(n).runs));
  const ledger = with_(amount);
  const { starts, fuelL, unservedKwh } = ledger.totals;
  return {
    kind: candidate.kind,
    outcome,
    from: candidate.valueAt(0),
    to: candidate.valueAt(amount),
    unit: Math.abs(candidate.valueAt(1) - candidate.valueAt(0)),
    changes: candidate.changes(amount),
    movedToH: outcome === 'moved' ? movedTo(around, runs, ledger.runs) : null,
    causeThen: causeThen(around, ledger.runs),
    whole: { starts, fuelL, unservedKwh },
    block: null,
  };
}
