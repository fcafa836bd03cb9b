import type { SiteChanges } from '../apply-changes.ts';
import { type Attempt, type Evaluate, evaluateBy, type TryEach } from './evaluate.ts';

/** What variants of a site have given, at one step or another: it outlives the study that ran them. */
export class Memory {
  private readonly bySteps = new Map<number, Map<string, Attempt>>();

  of(stepMin: number, changes: SiteChanges): Attempt | undefined {
    return this.bySteps.get(stepMin)?.get(JSON.stringify(changes));
  }

  keep(stepMin: number, changes: SiteChanges, attempt: Attempt): void {
    const known = this.bySteps.get(stepMin) ?? new Map<string, Attempt>();
    this.bySteps.set(stepMin, known.set(JSON.stringify(changes), attempt));
  }
}

/** A variant that has been run, with what it gave. */
export interface Finished {
  stepMin: number;
  changes: SiteChanges;
  attempt: Attempt;
}

export interface Remembering {
  tryEach: TryEach;
  evaluate: Evaluate;
  /** whatever was asked for here and is there, in the order in which it came; each once */
  finished: Finished[];
}

/**
 * Runs only what is not remembered, and remembers each variant as soon as it is done, so that stopping loses nothing.
 * @param stepMin the step where none is asked for [min]
 * @param onDone  told how many of those asked for at once are done, and how many were finished in all
 */
export function remembering(
  tryEach: TryEach,
  memory: Memory,
  stepMin: number,
  onDone: (done: number, of: number, finished: number) => void,
): Remembering {
  const finished: Finished[] = [];
  const seen = new Set<string>();
  const note = (step: number, changes: SiteChanges, attempt: Attempt) => {
    const key = `${step} ${JSON.stringify(changes)}`;
    if (!seen.has(key)) finished.push({ stepMin: step, changes, attempt });
    seen.add(key);
  };
  const tries: TryEach = async (variants, step = stepMin, onOne) => {
    const open: number[] = [];
    for (const [i, changes] of variants.entries()) {
      const known = memory.of(step, changes);
      if (known === undefined) open.push(i);
      else {
        note(step, changes, known);
        onOne?.(i, known);
      }
    }
    const before = variants.length - open.length;
    let done = 0;
    onDone(before, variants.length, finished.length);
    if (open.length > 0)
      await tryEach(
        open.map((i) => variants[i]),
        step,
        (at, attempt) => {
          const changes = variants[open[at]];
          memory.keep(step, changes, attempt);
          note(step, changes, attempt);
          onOne?.(open[at], attempt);
          done++;
          onDone(before + done, variants.length, finished.length);
        },
      );
    return variants.map((changes) => memory.of(step, changes) as Attempt);
  };
  return { tryEach: tries, evaluate: evaluateBy(tries), finished };
}
