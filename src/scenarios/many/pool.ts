import type { SiteChanges } from '../apply-changes.ts';
import { type Evaluate, evaluateBy, type TryEach } from './evaluate.ts';
import { type ManyRequest, makeSeries } from './ground.ts';
import { Round } from './round.ts';
import { Seat } from './seat.ts';
import { shareSeries } from './share.ts';
import type { OpenMessage, StartThread } from './thread.ts';

/** Evaluates variants over several threads; the outcomes are those of one, bit for bit. */
export interface Pool {
  evaluate: Evaluate;
  tryEach: TryEach;
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
  siteAt(request.stepMin);
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
  const pool: Pool = { tryEach, evaluate: evaluateBy(tryEach), onProgress: null, close };
  return pool;
}

/** The site as threads are told of it, and the files that were read for it, at one step after another. */
function siteBySteps(request: ManyRequest) {
  const known = new Map<number | undefined, { open: OpenMessage; reads: ReadonlySet<string> }>();
  return (stepMin: number | undefined) => {
    const found = known.get(stepMin);
    if (found) return found;
    const reads = new Set<string>();
    const readFile = (path: string) => {
      reads.add(path);
      return request.readFile(path);
    };
    const series = shareSeries(makeSeries({ ...request, readFile, stepMin }));
    const { text, file } = request;
    const made = { open: { kind: 'open' as const, text, file, stepMin: stepMin ?? null, series }, reads };
    known.set(stepMin, made);
    return made;
  };
}

/** Groups of a site that name files. */
const WITH_FILES = /^(load|weather|sources)(\.|$)/;

/** The files that variants may want to read: none where they leave all series that come from files as they are. */
function filesOf(variants: readonly SiteChanges[], reads: ReadonlySet<string>): ReadonlySet<string> {
  const paths = new Set<string>();
  for (const changes of variants)
    for (const [path, to] of Object.entries(changes)) {
      if (!WITH_FILES.test(path)) continue;
      for (const known of reads) paths.add(known);
      addNamed(paths, path.endsWith('.file') ? { file: to } : to);
    }
  return paths;
}

/** Adds every `file` within a value. */
function addNamed(paths: Set<string>, value: unknown): void {
  if (typeof value !== 'object' || value === null) return;
  for (const [key, part] of Object.entries(value))
    if (key === 'file' && typeof part === 'string') paths.add(part);
    else addNamed(paths, part);
}

/** One that is not there is left out: the variant that names it has the problem. */
function addFile(files: Map<string, Uint8Array>, path: string, request: ManyRequest): void {
  if (files.has(path)) return;
  try {
    files.set(path, request.readFile(path));
  } catch {}
}
