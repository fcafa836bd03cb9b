import type { ReadFile } from '../../../scenarios/load-files.ts';
import { makePool } from '../../../scenarios/many/pool.ts';
import { type Memory, type Remembering, remembering } from '../../../scenarios/many/remembered.ts';
import type { StartThread } from '../../../scenarios/many/thread.ts';
import type { StudyProgress } from '../study-messages.ts';

/** What a study works with. */
export interface StudyGround {
  text: string;
  file: string;
  readFile: ReadFile;
  startThread: StartThread;
  threads: number;
  memory: Memory;
  tell: (progress: StudyProgress) => void;
  /** aborted when somebody has had enough */
  stop: AbortSignal;
}

/** The page is told no more often than this [ms]. */
const EVERY_MS = 100;

/**
 * Runs work over threads, and ends them. When it is stopped, what is under way is let go.
 * @param stepMin step where none is asked for [min]
 * @param work gets what evaluates, and what says what is being done
 * @returns what the work gave, or null where it was stopped; and what was finished
 */
export async function overThreads<T>(
  ground: StudyGround,
  stepMin: number,
  work: (many: Remembering, doing: (words: string) => void) => Promise<T>,
): Promise<{ result: T | null; many: Remembering }> {
  const { text, file, readFile, threads, startThread, memory, stop } = ground;
  const pool = makePool({ text, file, readFile, stepMin }, threads, startThread);
  const progress = makeProgress(ground.tell);
  const many = remembering(pool.tryEach, memory, stepMin, progress.at);
  stop.addEventListener('abort', pool.close, { once: true });
  try {
    return { result: stop.aborted ? null : await work(many, progress.say), many };
  } catch (error) {
    if (!stop.aborted) throw error;
    return { result: null, many };
  } finally {
    stop.removeEventListener('abort', pool.close);
    pool.close();
  }
}

/** Time left of what is under way, from how long what is done of it took. */
export function makeProgress(tell: (progress: StudyProgress) => void) {
  let doing = '';
  let startMs = 0;
  let before = 0;
  let toldMs = Number.NEGATIVE_INFINITY;
  const at = (done: number, of: number, finished: number) => {
    const nowMs = performance.now();
    // what is done at the beginning was remembered, and took no time
    if (startMs === 0 || done <= before) [startMs, before] = [nowMs, done];
    if (nowMs - toldMs < EVERY_MS && done < of) return;
    toldMs = nowMs;
    const fresh = done - before;
    const leftS = fresh > 0 ? (((nowMs - startMs) / fresh) * (of - done)) / 1000 : null;
    tell({ doing, done, of, finished, leftS });
  };
  const say = (words: string) => {
    doing = words;
    startMs = 0;
  };
  return { at, say };
}
