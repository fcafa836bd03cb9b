import type { SiteChanges } from '../apply-changes.ts';
import type { Issue } from '../issue.ts';
import { type Evaluate, evaluateBy, type TryEach } from './evaluate.ts';
import { type ManyRequest, makeSeries } from './ground.ts';
import { namedFiles, readsFiles } from './named-files.ts';
import { Round } from './round.ts';
import { Seat } from './seat.ts';
import { shareSeries } from './share.ts';
import type { OpenMessage, StartThread } from './thread.ts';

/** Evaluates variants over several threads; the outcomes are those of one, bit for bit. */
export interface Pool {
  evaluate: Evaluate;
  tryEach: TryEach;
  /** what is doubtful about the inputs of the site and its alternatives */
  doubts: readonly Issue[];
  /** told after every few variants, if set */
  onProgress: ((done: number, of: number) => void) | null;
  /** ends the threads; what is under way is rejected */
  close(): void;
}

/**
 * Starts threads for a site, and keeps them until it is closed. A thread that dies is replaced, and its work is done
 * again once. Calls made while one is under way wait for it.
 * @param workers how many threads, 1 or more
 * Errors: throws `WrongVariants` with every problem of the site file.
 */
export function makePool(request: ManyRequest, workers: number, startThread: StartThread): Pool {
  const seats = Array.from({ length: workers }, () => new Seat(startThread));
  const files = new Map<string, Uint8Array>();
  const siteAt = siteBySteps(request);
  const { doubts } = siteAt(request.stepMin);
  let before: Promise<unknown> = Promise.resolve();
  const tryEach: TryEach = (variants, stepMin = request.stepMin, onDone = () => {}) => {
    const now = before.then(() => {
      for (const path of filesOf(variants, siteAt(stepMin).reads)) addFile(files, path, request);
      const onPortion = (done: number) => pool.onProgress?.(done, variants.length);
      return new Round(variants, siteAt(stepMin).open, files, onDone, onPortion).run(seats);
    });
    before = now.catch(() => {});
    return now;
  };
  const close = () => {
    for (const seat of seats) seat.close();
  };
  const pool: Pool = { tryEach, evaluate: evaluateBy(tryEach), doubts, onProgress: null, close };
  return pool;
}

interface SiteAtStep {
  open: OpenMessage;
  /** files that were read for it */
  reads: ReadonlySet<string>;
  doubts: Issue[];
}

/** The site as threads are told of it, and the files that were read for it, at one step after another. */
function siteBySteps(request: ManyRequest) {
  const known = new Map<number | undefined, SiteAtStep>();
  return (stepMin: number | undefined) => {
    const found = known.get(stepMin);
    if (found) return found;
    const reads = new Set<string>();
    const readFile = (path: string) => {
      reads.add(path);
      return request.readFile(path);
    };
    const { series: own, doubts } = makeSeries({ ...request, readFile, stepMin });
    const series = shareSeries(own);
    const { text, file } = request;
    const open: OpenMessage = { kind: 'open', text, file, stepMin: stepMin ?? null, series };
    const made = { open, reads, doubts };
    known.set(stepMin, made);
    return made;
  };
}

/** The files that variants may want to read: none where they leave all series that come from files as they are. */
function filesOf(variants: readonly SiteChanges[], reads: ReadonlySet<string>): string[] {
  return variants.some(readsFiles) ? [...reads, ...namedFiles(variants)] : [];
}

/** One that is not there is left out: the variant that names it has the problem. */
function addFile(files: Map<string, Uint8Array>, path: string, request: ManyRequest): void {
  if (files.has(path)) return;
  try {
    files.set(path, request.readFile(path));
  } catch {}
}
