import type { StartCause } from '../sim/causes.ts';
import type { GeneratorRun } from '../sim/ledger.ts';

/**
 * What a change does to one start: it stays; it is gone from its time, but as many starts are left around it, so it
 * only moved; or it is gone, and there are fewer around it.
 */
export type Outcome = 'stays' | 'moved' | 'gone';

/** A start within this long of the old one is still the same start [h]; less where another run is nearer. */
const SAME_START_H = 6;
/** Starts are counted this long before and after it [h], and on to the middle of the standstill there, if near. */
const AROUND_H = 48;
const FURTHEST_H = 72;

/** A start's own time, and the time around it in which starts are counted [h]. */
export interface Around {
  startH: number;
  /** half way to the runs before and after, at most six hours away */
  ownFromH: number;
  ownToH: number;
  fromH: number;
  toH: number;
}

/** @param i place of the start in the runs; @param endH length of the period [h] */
export function aroundStart(runs: readonly GeneratorRun[], i: number, endH: number): Around {
  const { startH } = runs[i];
  const middleBefore = (k: number) => ((runs[k - 1]?.endH ?? 0) + (runs[k]?.startH ?? endH)) / 2;
  const firstIn = runs.findIndex((run) => run.startH >= startH - AROUND_H);
  const firstAfter = runs.findIndex((run) => run.startH > startH + AROUND_H);
  return {
    startH,
    ownFromH: Math.max(startH - SAME_START_H, middleBefore(i)),
    ownToH: Math.min(startH + SAME_START_H, middleBefore(i + 1)),
    fromH: Math.max(startH - FURTHEST_H, firstIn === 0 ? 0 : middleBefore(firstIn)),
    toH: Math.min(startH + FURTHEST_H, firstAfter < 0 ? endH : middleBefore(firstAfter)),
  };
}

/** What became of a start. @param before runs as they were; @param after runs with the change */
export function outcomeOf(
  around: Around,
  before: readonly GeneratorRun[],
  after: readonly GeneratorRun[],
): Outcome {
  if (after.some((run) => isSameStart(around, run))) return 'stays';
  return startsAround(around, after).length < startsAround(around, before).length ? 'gone' : 'moved';
}

/** The cause of a start that stays, which may be another; null where it does not stay. */
export function causeThen(around: Around, after: readonly GeneratorRun[]): StartCause | null {
  return after.find((run) => isSameStart(around, run))?.cause ?? null;
}

/** Where a start that only moved is now: the nearest one around that was not there before [h]; null: none is new. */
export function movedTo(
  around: Around,
  before: readonly GeneratorRun[],
  after: readonly GeneratorRun[],
): number | null {
  const others = before.filter(({ startH }) => startH !== around.startH);
  const fresh = startsAround(around, after).filter(
    (startH) => !others.some((run) => Math.abs(run.startH - startH) < 0.5),
  );
  const distance = (startH: number) => Math.abs(startH - around.startH);
  return fresh.reduce<number | null>(
    (best, startH) => (best === null || distance(startH) < distance(best) ? startH : best),
    null,
  );
}

/** Starts in its own time, or the engine already running at the moment it started. */
function isSameStart({ startH, ownFromH, ownToH }: Around, run: GeneratorRun): boolean {
  return (run.startH >= ownFromH && run.startH <= ownToH) || (run.startH < startH && run.endH > startH);
}

function startsAround({ fromH, toH }: Around, runs: readonly GeneratorRun[]): number[] {
  return runs.filter(({ startH }) => startH >= fromH && startH < toH).map(({ startH }) => startH);
}

/**
 * The least amount that makes a start go, or else the least that moves it, by halving: its result holds with the
 * amount found and not with one less. An amount in between that would do too, while a larger one does not, may be
 * missed.
 * @param most largest amount tried, a whole number > 0
 * @returns the amount and what it does; where none tried does anything, the most
 */
export function leastThatAvoids(
  most: number,
  outcome: (amount: number) => Outcome,
): { amount: number; outcome: Outcome } {
  const known = new Map<number, Outcome>();
  const at = (amount: number) => {
    const found = known.get(amount) ?? outcome(amount);
    known.set(amount, found);
    return found;
  };
  for (const wanted of ['gone', 'moved'] as const) {
    const amount = leastWith(most, (n) => at(n) === 'gone' || at(n) === wanted);
    if (amount !== null) return { amount, outcome: at(amount) };
  }
  return { amount: most, outcome: 'stays' };
}

/** A quarter, half and all of the most are tried first, then halved down to one unit. */
function leastWith(most: number, does: (amount: number) => boolean): number | null {
  let below = 0;
  for (const rung of new Set([Math.ceil(most / 4), Math.ceil(most / 2), most])) {
    if (!does(rung)) {
      below = rung;
      continue;
    }
    let least = rung;
    while (least - below > 1) {
      const middle = Math.floor((below + least) / 2);
      if (does(middle)) least = middle;
      else below = middle;
    }
    return least;
  }
  return null;
}
